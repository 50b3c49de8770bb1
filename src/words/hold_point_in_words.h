#pragma once

#include <string>

#include "progress/hold_point_state.h"

namespace words {

// "J09, J10", "all joints".
[[nodiscard]] std::string what_is_behind(const record::HoldPoint& point);

// "passed by LM, 2025-05-14 09:25: gauge at 0 bar"; else how much of the wait is left, or what
// comes next.
[[nodiscard]] std::string how_it_stands(const progress::HoldPointState& state);

}  // namespace words
