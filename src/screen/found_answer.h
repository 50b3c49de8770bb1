#pragma once

#include <string>

#include "audit/deviation.h"
#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// What a test comes to: one line with value, verdict and grade where all is well. Where it is not
// within, also what it was tightened to, the likeliest cause (nothing where no fact speaks for one)
// and what would settle it; where the grade is not the best, why; and that it is not to be tested.
// Its sentences; the first is the verdict.
[[nodiscard]] std::vector<std::string> found_lines(const finding::JointState& joint,
                                                   const finding::Finding& finding,
                                                   const audit::Cause* likeliest);
[[nodiscard]] std::string found_answer(const finding::JointState& joint,
                                       const finding::Finding& finding,
                                       const audit::Cause* likeliest, const words::Page& page);

}  // namespace screen
