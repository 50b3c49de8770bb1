#pragma once

#include <string>

#include "finding/survey.h"

namespace words {

// "76.5 to 93.5", "min 90", "max 12": without the unit; empty where there is no limit.
[[nodiscard]] std::string limits_words(const record::ToleranceWindow& window,
                                       quantity::TorqueUnit unit);

// "low", "not comparable", "low, disputed"; "no specification" where there is nothing to compare
// with, which "not comparable" would hide.
[[nodiscard]] std::string verdict_word(const finding::PositionState& position,
                                       const finding::Finding& finding);

// "DISPUTED: within by 80.0 ±5.7 N·m (line 9, KB), low by 50.0 ±3.4 N·m (line 11, LM); until one is
// struck the worse counts"; empty where nothing disputes it.
[[nodiscard]] std::string disputed_findings(const finding::PositionState& position,
                                            quantity::TorqueUnit unit);

// A test in a line: "J08/05 52.0 ±5.4 N·m: low (76.5 to 93.5 N·m), grade A".
[[nodiscard]] std::string verdict_text(const finding::JointState& joint,
                                       const finding::Finding& finding);

// Of a finding that was read well and is not well known for all that, what each is about and what
// weighs most; empty for others.
[[nodiscard]] std::string read_well_known_badly(const finding::Finding& finding);

}  // namespace words
