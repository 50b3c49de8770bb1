#pragma once

#include <string>
#include <vector>

#include "plan/joint_order.h"
#include "progress/progress.h"

namespace progress {

// The stated precedences of a joint that are not met yet: a joint it comes after has open or left
// out passes at its turn, or one that it covers has not reached its final value everywhere. As in
// the plan, a joint whose final value waits is far enough for `after` once it is snug.
[[nodiscard]] std::vector<plan::Precedence> unfinished_before(const Progress& progress,
                                                              const record::Joint& joint);

// "J05 covers J07, and J07 is not finished".
[[nodiscard]] std::string in_words(const plan::Precedence& unmet);

}  // namespace progress
