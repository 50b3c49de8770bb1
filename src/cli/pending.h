#pragma once

#include <functional>

namespace cli {

class Session;

// The command that the command line chose. Parsing only stores it; it runs after parsing has ended.
struct Pending {
  std::function<int(const Session&)> run;
};

}  // namespace cli
