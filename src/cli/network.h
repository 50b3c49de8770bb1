#pragma once

#include <functional>

#include "cli/fleet.h"
#include "cli/serve.h"

namespace terminal {
class Session;
}

namespace cli {

// The two commands that reach over the network. The libraries that they need cost four times as
// long to load as everything else that a command does, so a program of their own is linked with
// them; the one that is typed starts it.
struct Network {
  std::function<int(const ServeCommandOptions&, const terminal::Session&)> serve;
  std::function<int(const FleetOptions&, const terminal::Session&)> fleet;
  // Where these are not here: has the same command line carried out by that other program.
  std::function<int()> elsewhere;
};

}  // namespace cli
