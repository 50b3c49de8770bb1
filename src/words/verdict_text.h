#pragma once

#include <string>

#include "finding/survey.h"

namespace words {

// "76.5 to 93.5", "min 90", "max 12": without the unit; empty where there is no limit.
[[nodiscard]] std::string limits_words(const record::ToleranceWindow& window,
                                       quantity::TorqueUnit unit);

// "low", "not comparable"; "no specification" where there is nothing to compare with, which "not
// comparable" would hide.
[[nodiscard]] std::string verdict_word(const finding::PositionState& position,
                                       const finding::Finding& finding);

// A test in a line: "J08/05 52.0 ±5.4 N·m: low (76.5 to 93.5 N·m), grade A".
[[nodiscard]] std::string verdict_text(const finding::JointState& joint,
                                       const finding::Finding& finding);

}  // namespace words
