#pragma once

#include "cli/context.h"

namespace cli {

// The context of this very process: its streams, clock, environment, user and terminal.
[[nodiscard]] Context process_context();

}  // namespace cli
