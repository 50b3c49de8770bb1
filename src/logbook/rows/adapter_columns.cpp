#include "logbook/rows/adapter_columns.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "logbook/rows/cells.h"

namespace logbook {
namespace {

constexpr double kNearlyEqual = 1e-9;  // ratios, after a way through text and back

void measure_adapters_in(SQLite::Database& database, const std::string& table) {
  const auto trigger = table + "_never_changed";
  SQLite::Statement kept(database, "SELECT sql FROM sqlite_schema WHERE name = :name");
  kept.bind(":name", trigger);
  kept.executeStep();
  const auto trigger_sql = kept.getColumn(0).getString();
  kept.reset();
  database.exec("DROP TRIGGER " + trigger);

  SQLite::Statement row(database, fmt::format("SELECT entry_id, adapter, adapter_ratio FROM {} "
                                              "WHERE adapter <> '' ORDER BY entry_id",
                                              table));
  SQLite::Statement measured(database, fmt::format(R"(
      UPDATE {} SET adapter = '', adapter_extension_mm = :extension_mm,
             adapter_wrench_length_mm = :wrench_length_mm, adapter_angle_deg = :angle_deg,
             adapter_extension_typed = :extension_typed,
             adapter_wrench_length_typed = :wrench_length_typed, adapter_angle_typed = :angle_typed
      WHERE entry_id = :id)",
                                                   table));
  while (row.executeStep()) {
    const auto adapter = record::adapter_in_words(row.getColumn(1).getString());
    if (!adapter) continue;
    if (!(std::fabs(adapter->torque_ratio - row.getColumn(2).getDouble()) < kNearlyEqual)) continue;
    measured.reset();
    measured.bind(":id", row.getColumn(0).getString());
    const auto& told = record::told_of(*adapter);
    measured.bind(":extension_mm", told.measures->adapter_length.in_millimetres());
    measured.bind(":wrench_length_mm", told.measures->wrench_length.in_millimetres());
    measured.bind(":angle_deg", told.measures->angle.in_degrees());
    measured.bind(":extension_typed", told.extension_typed);
    measured.bind(":wrench_length_typed", told.wrench_length_typed);
    measured.bind(":angle_typed", told.angle_typed);
    measured.exec();
  }
  row.reset();
  database.exec(trigger_sql);
}

}  // namespace

void bind_adapter(SQLite::Statement& row, const record::ThroughAdapter& adapter) {
  const auto& told = record::told_of(adapter);
  row.bind(":adapter_ratio", adapter.torque_ratio);
  row.bind(":adapter", told.words);
  if (const auto& measures = told.measures) {
    row.bind(":extension_mm", measures->adapter_length.in_millimetres());
    row.bind(":wrench_length_mm", measures->wrench_length.in_millimetres());
    row.bind(":angle_deg", measures->angle.in_degrees());
  }
  row.bind(":extension_typed", told.extension_typed);
  row.bind(":wrench_length_typed", told.wrench_length_typed);
  row.bind(":angle_typed", told.angle_typed);
}

record::ThroughAdapter adapter_at(SQLite::Statement& row, int first_column) {
  const double torque_ratio = positive_at(row, first_column);
  record::AdapterTold told;
  told.words = text_at(row, first_column + 1);
  told.extension_typed = text_at(row, first_column + 5);
  told.wrench_length_typed = text_at(row, first_column + 6);
  told.angle_typed = text_at(row, first_column + 7);
  if (is_null_at(row, first_column + 2)) {
    if (told.words.empty() && std::fabs(torque_ratio - 1.0) >= kNearlyEqual) {
      refuse_cell(row, first_column, "1, since no adapter is named");
    }
    if (told.words.empty() && told.extension_typed.empty() && told.wrench_length_typed.empty() &&
        told.angle_typed.empty()) {
      return {torque_ratio};
    }
  } else {
    told.measures =
        fastener::Adapter{length_at(row, first_column + 3), length_at(row, first_column + 2),
                          angle_at(row, first_column + 4)};
    if (!(std::fabs(fastener::torque_ratio(*told.measures) - torque_ratio) < kNearlyEqual)) {
      refuse_cell(row, first_column, "the ratio that the adapter's measures give");
    }
  }
  return {torque_ratio, std::make_shared<const record::AdapterTold>(std::move(told))};
}

void measure_adapters(SQLite::Database& database) {
  measure_adapters_in(database, "finding");
  measure_adapters_in(database, "tightening");
}

}  // namespace logbook
