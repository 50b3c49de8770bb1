#pragma once

#include "cli/network.h"

namespace cli {

// Gives this very process and its command line over to the program boltwitness-network, which lies
// beside it or where it was installed; UsageError, when a command needs it, where it does not.
[[nodiscard]] Network network_program(char** command_line);

}  // namespace cli
