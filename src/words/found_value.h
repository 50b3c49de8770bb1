#pragma once

#include <string>

#include "finding/found_torque.h"
#include "quantity/torque_unit.h"

namespace words {

// "80", "> 80", "≤ 60": the estimate, or the bound there is, without its unit.
[[nodiscard]] std::string found_value(const finding::FoundTorque& torque,
                                      quantity::TorqueUnit unit);

}  // namespace words
