#include "quantity/stated_torque.h"

#include <fmt/format.h>

#include "quantity/number_text.h"

namespace quantity {

StatedTorque read_torque(std::string_view text) {
  const auto number = read_leading_number(text, text);
  const StatedTorque stated{number.value, read_required_unit(number.rest, text)};
  (void)stated.torque();  // refuses what overflows
  return stated;
}

TorqueUnit read_required_unit(std::string_view unit_text, std::string_view whole) {
  if (trimmed(unit_text).empty()) {
    throw failure::InputError(
        fmt::format("{} has no unit; expected a torque with one of {} (for example \"{} N·m\")",
                    quoted(whole), accepted_torque_units(), trimmed(whole)));
  }
  const auto unit = read_torque_unit(unit_text);
  if (!unit) {
    throw failure::InputError(fmt::format("{}: the unit {} is not known; expected one of {}",
                                          quoted(whole), quoted(unit_text),
                                          accepted_torque_units()));
  }
  return *unit;
}

std::string accepted_torque_units() {
  std::string names;
  for (const auto unit : kTorqueUnits) {
    if (!names.empty()) names += ", ";
    names += name_of(unit);
  }
  return names;
}

std::string write_exact(const StatedTorque& stated) {
  return fmt::format("{} {}", write_exact(stated.value), name_of(stated.unit));
}

std::string write_rounded(Torque torque, TorqueUnit unit, int digits) {
  return fmt::format("{} {}", write_rounded(in_unit(torque, unit), digits), name_of(unit));
}

}  // namespace quantity
