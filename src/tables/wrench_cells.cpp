#include "tables/wrench_cells.h"

#include <fmt/format.h>

#include "act/option_error.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"

namespace tables {

void check_scale_unit(const TableRow& row, const record::Wrench& wrench) {
  const auto typed = row["unit"];
  if (quantity::trimmed(typed).empty()) return;
  const auto unit =
      act::of_option("unit", [&] { return quantity::read_required_unit(typed, typed); });
  if (unit == wrench.scale.unit) return;
  throw act::OptionError(
      "unit",
      fmt::format("{}: settings stand on the scale of {}, which is in {}", quantity::quoted(typed),
                  wrench.name, quantity::name_of(wrench.scale.unit)));
}

void add_adapter_cells(std::vector<std::string>& row, const record::ThroughAdapter& adapter) {
  const auto& told = record::told_of(adapter);
  row.push_back(told.measures ? told.extension_typed : told.words);
  row.push_back(told.wrench_length_typed);
  row.push_back(told.measures && told.angle_typed.empty() ? "0°" : told.angle_typed);
}

act::AdapterWords adapter_options_in(const TableRow& row) {
  return {row["extension"], row["wrench-length"], row["adapter-angle"]};
}

}  // namespace tables
