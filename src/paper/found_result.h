#pragma once

#include <string>

#include "finding/survey.h"
#include "quantity/torque_unit.h"

namespace paper {

// Low or high.
[[nodiscard]] bool is_outside(const finding::Finding& finding);

// What the tests of a joint came to: "7 within, 1 low: 05 at 52", the positions of what is not
// within named, those outside with their value where they are few; "not tested".
[[nodiscard]] std::string found_result(const finding::JointState& joint, quantity::TorqueUnit unit);

// The same without values: "7 within, 1 low: J08/05".
[[nodiscard]] std::string found_result(const finding::JointState& joint);

}  // namespace paper
