#pragma once

#include <string>
#include <vector>

#include "cli/network.h"
#include "terminal/context.h"

namespace cli {

// Runs one command line (without the program's name) and returns the exit code; every error ends
// here, as a message on context.err.
[[nodiscard]] int run(const std::vector<std::string>& arguments, terminal::Context& context,
                      const Network& network);

}  // namespace cli
