#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantity/stated_torque.h"

namespace screen {

// A torque in one unit, or in every unit the program knows.
[[nodiscard]] std::string convert_text(const quantity::StatedTorque& stated,
                                       std::optional<quantity::TorqueUnit> to);

// {"value","unit","nm","stated":{"value","unit"},"typed"}: in the unit asked for, N·m where none
// was, correctly rounded; and what was asked about, in its own unit and as typed.
[[nodiscard]] std::string convert_json(const quantity::StatedTorque& stated, std::string_view typed,
                                       std::optional<quantity::TorqueUnit> to);

}  // namespace screen
