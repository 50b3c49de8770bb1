#pragma once

#include <string>
#include <vector>

#include "plan/reassembly_plan.h"

namespace words {

// What a pass asks for, torques in `unit`: "80 N·m", "turn 60° further", "loosen fully", "snug".
[[nodiscard]] std::string target_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit);

// The same as it stands beside the setting: "34.3 N·m asked" where the setting reads otherwise.
[[nodiscard]] std::string asked_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit);

// The wrench and its setting in its own unit: "TW2 at 56 N·m"; empty for a pass that needs none.
[[nodiscard]] std::string setting_text(const plan::PlannedPass& planned);

// What the hand needs: "TW2 at 34 N·m (34.3 N·m asked), 70 %", "turn 60° further, 55° to 65°
// allowed".
[[nodiscard]] std::string work_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit);

// " at positions 2,7,10,15" where these are not all of the joint's; else empty.
[[nodiscard]] std::string at_positions(const plan::PlannedJoint& joint, std::vector<int> positions);

}  // namespace words
