#include "quantity/stated_torque.h"

#include <fmt/format.h>

#include "quantity/number_text.h"

namespace quantity {

StatedTorque read_torque(std::string_view text) {
  const auto number = read_leading_number(text, text);
  if (number.rest.empty()) {
    throw InputError(
        fmt::format("{} has no unit; expected a torque with one of {} (for example \"{} N·m\")",
                    quoted(text), accepted_torque_units(), number.digits));
  }
  const auto unit = read_torque_unit(number.rest);
  if (!unit) {
    throw InputError(fmt::format("{}: the unit {} is not known; expected one of {}", quoted(text),
                                 quoted(number.rest), accepted_torque_units()));
  }
  const StatedTorque stated{number.value, *unit};
  (void)stated.torque();  // refuses what overflows
  return stated;
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

std::string write_rounded(Torque torque, TorqueUnit unit) {
  return fmt::format("{} {}", write_rounded(in_unit(torque, unit)), name_of(unit));
}

}  // namespace quantity
