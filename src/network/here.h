#pragma once

#include "cli/network.h"

namespace network {

// Both commands, carried out by the process at hand.
[[nodiscard]] cli::Network here();

}  // namespace network
