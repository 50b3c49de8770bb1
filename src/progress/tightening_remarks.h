#pragma once

#include <string>
#include <vector>

#include "progress/progress.h"

namespace progress {

// What is not as the plan has it in a tightening that is about to be recorded, each in one
// sentence: the order of joints, passes or positions broken; a wrench out of range or out of
// calibration on the day; a setting other than the plan's; the final torque's limit passed; work
// done a second time; a turn outside its window. Empty where all is as planned. It is recorded
// either way, since it has happened.
[[nodiscard]] std::vector<std::string> remarks_on(const record::Tightening& tightening,
                                                  const Progress& before, const record::Job& job,
                                                  record::Day day);

}  // namespace progress
