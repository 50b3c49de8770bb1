#pragma once

#include <optional>
#include <string>

#include "quantity/stated_torque.h"

namespace screen {

// A torque in one unit, or in every unit the program knows.
[[nodiscard]] std::string convert_text(const quantity::StatedTorque& stated,
                                       std::optional<quantity::TorqueUnit> to);

// {"value","unit","nm"}: in the unit asked for, N·m where none was.
[[nodiscard]] std::string convert_json(const quantity::StatedTorque& stated,
                                       std::optional<quantity::TorqueUnit> to);

}  // namespace screen
