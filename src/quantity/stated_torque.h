#pragma once

#include <string>
#include <string_view>

#include "quantity/torque_unit.h"

namespace quantity {

// A torque as somebody stated it: the number in the unit they used. The unit is part of the fact
// and is kept; every other unit is derived from it.
struct StatedTorque {
  double value = 0.0;
  TorqueUnit unit = TorqueUnit::NewtonMetre;

  [[nodiscard]] Torque torque() const { return torque_of(value, unit); }
  bool operator==(const StatedTorque&) const = default;
};

// Reads a number and a unit: "80 N·m", "70ft-lb", "3,5 Nm". Zero is read; see number_text.h for
// what is refused. failure::InputError for a missing or unknown unit, naming the accepted ones.
[[nodiscard]] StatedTorque read_torque(std::string_view text);

// Reads a unit that has to be there. `whole` is the text to quote in the failure::InputError for a
// missing or an unknown unit.
[[nodiscard]] TorqueUnit read_required_unit(std::string_view unit_text, std::string_view whole);

// The accepted units in one line, for messages.
[[nodiscard]] std::string accepted_torque_units();

// "80 N·m": reads back to the same value and unit.
[[nodiscard]] std::string write_exact(const StatedTorque& stated);

// "94.91 N·m": four significant digits, or another number of them, for people.
[[nodiscard]] std::string write_rounded(Torque torque, TorqueUnit unit, int digits = 4);

}  // namespace quantity
