#pragma once

#include "terminal/context.h"

namespace terminal {

// The context of this very process: its streams, clock, environment, user and terminal.
[[nodiscard]] Context process_context();

}  // namespace terminal
