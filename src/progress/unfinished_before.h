#pragma once

#include <string>
#include <vector>

#include "finding/survey.h"
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

// A joint that is covered next and has its final value, with what can still be done to it only
// before that.
struct Unmarked {
  std::string cover;
  std::string joint;
  std::vector<int> unchecked;  // by a second person, where the joint is critical
  std::vector<int> unstriped;
};

// What this joint covers and what is unmarked there, as far as it has its final value.
[[nodiscard]] std::vector<Unmarked> unmarked_before(const Progress& progress,
                                                    const finding::Survey& survey,
                                                    const record::Joint& cover);

// "J02 covers J01, and J01/1-2 has no final stripe yet".
[[nodiscard]] std::string in_words(const Unmarked& unmarked);

}  // namespace progress
