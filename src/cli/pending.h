#pragma once

#include <functional>

namespace terminal {
class Session;
}

namespace cli {

struct Network;

// The command that the command line chose. Parsing only stores it; it runs after parsing has ended.
struct Pending {
  std::function<int(const terminal::Session&)> run;
  const Network& network;        // of who runs it
  bool is_over_network = false;  // it is one of those
};

}  // namespace cli
