#pragma once

#include <functional>

namespace terminal {
class Session;
}

namespace cli {

// The command that the command line chose. Parsing only stores it; it runs after parsing has ended.
struct Pending {
  std::function<int(const terminal::Session&)> run;
};

}  // namespace cli
