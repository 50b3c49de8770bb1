#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"

namespace words {

// What would decide an undecided finding, and what would make its bracket fine: a sentence each,
// steps in the unit of the wrench's scale. None where nothing has to be bettered by pulling, or the
// finding is no evidence, or the position must not be tested (finding/not_to_be_tested.h).
[[nodiscard]] std::vector<std::string> help_lines(const finding::JointState& joint,
                                                  const finding::Finding& finding);

}  // namespace words
