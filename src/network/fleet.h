#pragma once

#include "cli/fleet.h"

namespace terminal {
class Session;
}

namespace network {

// Loads logbooks into the database of a server, or asks it. The exit code.
[[nodiscard]] int ask_or_load(const cli::FleetOptions& options, const terminal::Session& session);

}  // namespace network
