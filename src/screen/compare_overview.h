#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// Found torque against specification for many joints, what leads the eye first: how many are what,
// then what lies outside its tolerance, what is undecided, what cannot be compared, what is within
// (positions that are alike in a line) and what was not tested. What lies outside or is undecided
// says what became of it since: tightened, else what was decided. Lists are cut unless `whole`.
[[nodiscard]] std::string compare_overview(const record::Job& job,
                                           const std::vector<const finding::JointState*>& joints,
                                           bool whole, const words::Page& page);

}  // namespace screen
