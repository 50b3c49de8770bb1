#pragma once

#include "cli/network.h"

namespace cli {

// What main does: runs the command line of this very process, in its own world.
[[nodiscard]] int run_process(int argc, char** argv, const Network& network);

}  // namespace cli
