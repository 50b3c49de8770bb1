#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "progress/reassembly.h"

namespace words {

// The wrenches for a found-torque test of this position: in calibration on the day, and covering
// what is expected there. Those of the job where nothing is expected.
[[nodiscard]] std::vector<std::string_view> wrenches_for_test(const record::Job& job,
                                                              const finding::JointState& joint,
                                                              int position, record::Day day);

// What a command at the fasteners of a joint, such as "bench J06" or "tighten J06/1-4 --pass 2",
// takes: "TW2 or TW3", "TW2 at 34 N·m", "none, turn 60° further", "none in calibration covers
// 68 N·m to 102 N·m", and how one is entered where there is none. Empty for one that turns nothing.
[[nodiscard]] std::string wrench_for(const std::string& command,
                                     const progress::Reassembly& reassembly, record::Day day);

}  // namespace words
