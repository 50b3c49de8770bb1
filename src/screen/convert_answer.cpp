#include "screen/convert_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "quantity/number_text.h"
#include "screen/json_text.h"
#include "screen/table.h"

namespace screen {
namespace {

// Six significant digits: finer than any wrench, short enough to read. What was typed stays as it
// is.
std::string number(const quantity::StatedTorque& stated, quantity::TorqueUnit unit) {
  if (unit == stated.unit) return quantity::write_exact(stated.value);
  return quantity::write_rounded(quantity::converted(stated.value, stated.unit, unit), 6);
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

std::string convert_json(const quantity::StatedTorque& stated, std::string_view typed,
                         std::optional<quantity::TorqueUnit> to) {
  const auto unit = to.value_or(quantity::TorqueUnit::NewtonMetre);
  const auto in = [&](quantity::TorqueUnit wanted) {
    return quantity::converted(stated.value, stated.unit, wanted);
  };
  return json_text(kTorqueFormat,
                   {{"value", in(unit)},
                    {"unit", quantity::name_of(unit)},
                    {"nm", in(quantity::TorqueUnit::NewtonMetre)},
                    {"stated", {{"value", stated.value}, {"unit", quantity::name_of(stated.unit)}}},
                    {"typed", typed}});
}

}  // namespace screen
