#pragma once

#include <string>

#include "plan/reassembly_plan.h"

namespace report {

// What a pass asks for: "80 N·m", "turn 60° further", "loosen fully", "snug".
[[nodiscard]] std::string target_text(const plan::PlannedPass& planned,
                                      const record::LogbookStart& start);

// The wrench and its setting in its own unit: "TW2 at 56 N·m"; empty for a pass that needs none.
[[nodiscard]] std::string setting_text(const plan::PlannedPass& planned);

}  // namespace report
