#pragma once

#include <string>
#include <vector>

#include "progress/reassembly.h"

namespace progress {

// What is not as the plan has it in a tightening that is about to be recorded, each in one
// sentence: the order of joints, passes or positions broken; a wrench out of range or out of
// calibration on the day; a setting other than the plan's; the final torque's limit passed; work
// done a second time; a turn outside its window; counted items that are not back, new
// fasteners that have not arrived and repairs that were decided and not done; a moment before it
// came out, or before the line that it has to follow; what was slackened and nothing told of it.
// Empty where all is as planned. It is recorded either way, since it has happened.
[[nodiscard]] std::vector<std::string> remarks_on(const record::Tightening& tightening,
                                                  const Reassembly& before, record::Moment done_at);

}  // namespace progress
