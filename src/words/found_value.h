#pragma once

#include <string>

#include "finding/found_torque.h"
#include "finding/survey.h"
#include "finding/tightened_to.h"
#include "quantity/torque_unit.h"

namespace words {

// "80.0", "> 80", "≤ 60": the estimate to its last place (finding::last_place), or the bound there
// is as it was set; without its unit.
[[nodiscard]] std::string found_value(const finding::FoundTorque& torque,
                                      quantity::TorqueUnit unit);

// "3.4": U with two digits.
[[nodiscard]] std::string uncertainty_value(const finding::FoundTorque& torque,
                                            quantity::TorqueUnit unit);

// "48.8 ±3.4", "above 80", "at or below 60": without the unit.
[[nodiscard]] std::string found_words(const finding::FoundTorque& torque,
                                      quantity::TorqueUnit unit);

// "79.9 N·m = 58.9 ft·lbf = 707 in·lbf": an estimate to the place of its uncertainty in each.
[[nodiscard]] std::string found_side_by_side(const finding::FoundTorque& torque,
                                             quantity::TorqueUnit first);

// "closer than the digits show, 7.6251 against the limit of 7.6264 N·m": where the verdict would be
// another by the figures as they are shown; else empty. A verdict is made with all digits.
[[nodiscard]] std::string closer_than_shown(const finding::Finding& finding,
                                            quantity::TorqueUnit unit);

// "50.2 ±6.6": what it was tightened to, the same way.
[[nodiscard]] std::string tightened_words(const finding::TightenedTo& tightened,
                                          quantity::TorqueUnit unit);

}  // namespace words
