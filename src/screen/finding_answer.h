#pragma once

#include <string>

#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// What one found-torque test comes to, right after it was entered: the torque in all three units,
// the bracket, where the uncertainty comes from, the verdict, the grade and what would better it.
[[nodiscard]] std::string finding_text(const finding::JointState& joint,
                                       const finding::Finding& finding, const words::Page& page);

}  // namespace screen
