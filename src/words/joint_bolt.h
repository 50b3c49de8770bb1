#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "finding/survey.h"
#include "quantity/torque.h"
#include "words/text.h"

namespace words {

// What the bolts of a joint can bear, and the torques that are plausible in each condition that is
// specified for it. Says so where nothing is known of the size and grade.
[[nodiscard]] std::string joint_bolt_text(const finding::JointState& joint,
                                          quantity::TorqueUnit unit, const Page& page);

// What the parts of the joint bear of its bolts, a sentence each, with the positions before it
// where not all are tightened alike (finding/part_check.h). None where nothing is known of them.
[[nodiscard]] std::vector<std::string> part_sentences(const finding::JointState& joint);

// {"proof_load_n","yield_load_n","conditions":[{"condition","plausible_nm":{"low","high"}|null,
// "yields_at_nm"|null}]}, or null where nothing is known of the size and grade.
[[nodiscard]] nlohmann::ordered_json joint_bolt_json(const finding::JointState& joint);

}  // namespace words
