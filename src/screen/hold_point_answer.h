#pragma once

#include <string>
#include <vector>

#include "progress/hold_point_state.h"
#include "words/text.h"

namespace screen {

// Each hold point, what it stands before and how it stands: who passed it when and how, the time
// left, or what comes next; with the cautions at the end.
[[nodiscard]] std::string hold_points_text(const std::vector<progress::HoldPointState>& states,
                                           const words::Page& page);

// {"hold_points":[{"code","what","before":[],"wait_s","stands","left_s","open_from","passed_by",
// "passed_at","how"}]}; "stands" is not begun, waiting, wait over or passed; an empty "before"
// means all joints.
[[nodiscard]] std::string hold_points_json(const std::vector<progress::HoldPointState>& states);

}  // namespace screen
