#include "screen/convert_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "quantity/number_text.h"
#include "screen/json_text.h"
#include "screen/table.h"

namespace screen {
namespace {

// Six significant digits: finer than any wrench, short enough to read.
std::string number(const quantity::StatedTorque& stated, quantity::TorqueUnit unit) {
  return quantity::write_rounded(quantity::in_unit(stated.torque(), unit), 6);
}

}  // namespace

std::string convert_text(const quantity::StatedTorque& stated,
                         std::optional<quantity::TorqueUnit> to) {
  if (to) return fmt::format("{} {}\n", number(stated, *to), quantity::name_of(*to));
  Table table;
  table.column("", Table::Align::Right);
  table.column("");
  for (const auto unit : quantity::kTorqueUnits) {
    table.row({number(stated, unit), std::string(quantity::name_of(unit))});
  }
  return quantity::write_exact(stated) + " is\n" + table.text("  ");
}

std::string convert_json(const quantity::StatedTorque& stated,
                         std::optional<quantity::TorqueUnit> to) {
  const auto unit = to.value_or(quantity::TorqueUnit::NewtonMetre);
  const double value =
      unit == stated.unit ? stated.value : quantity::in_unit(stated.torque(), unit);
  return json_text({{"value", value},
                    {"unit", quantity::name_of(unit)},
                    {"nm", stated.torque().in_newton_metres()}});
}

}  // namespace screen
