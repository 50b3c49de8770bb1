#pragma once

#include "progress/hold_point_state.h"
#include "terminal/session.h"

namespace dialogue {

// Counts the rest of a wait down on one line of the terminal, once a second, to its end; nothing
// where none runs. Ctrl-C ends the program as it ends any other; nothing is held meanwhile.
void watch_wait(const progress::HoldPointState& state, const terminal::Session& session);

}  // namespace dialogue
