#include "logbook/rows/wrench_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"
#include "logbook/rows/word_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Wrench& wrench) {
  SQLite::Statement row(database, R"(
      INSERT INTO wrench (entry_id, name, scale_unit, scale_low, scale_high, scale_low_nm,
                          scale_high_nm, graduation, kind, accuracy_percent, serial, calibrated_on,
                          valid_months, range_typed, graduation_typed, accuracy_typed,
                          found_off_percent)
      VALUES (:id, :name, :scale_unit, :scale_low, :scale_high, :scale_low_nm,
              :scale_high_nm, :graduation, :kind, :accuracy, :serial, :calibrated,
              :valid_months, :range_typed, :graduation_typed, :accuracy_typed, :found_off))");
  const auto& scale = wrench.scale;
  row.bind(":id", id);
  row.bind(":name", wrench.name);
  row.bind(":scale_unit", unit_text(scale.unit));
  row.bind(":scale_low", scale.low);
  row.bind(":scale_high", scale.high);
  row.bind(":scale_low_nm", quantity::torque_of(scale.low, scale.unit).in_newton_metres());
  row.bind(":scale_high_nm", quantity::torque_of(scale.high, scale.unit).in_newton_metres());
  row.bind(":graduation", wrench.graduation);
  row.bind(":kind", std::string(record::word_of(wrench.kind)));
  if (wrench.accuracy) row.bind(":accuracy", wrench.accuracy->in_percent());
  row.bind(":serial", wrench.serial);
  if (wrench.calibrated) row.bind(":calibrated", record::write_day(*wrench.calibrated));
  row.bind(":valid_months", wrench.valid_months);
  row.bind(":range_typed", wrench.scale_typed);
  row.bind(":graduation_typed", wrench.graduation_typed);
  row.bind(":accuracy_typed", wrench.accuracy_typed);
  if (wrench.found_off) row.bind(":found_off", wrench.found_off->in_percent());
  row.exec();
}

std::vector<record::Entry<record::Wrench>> read_wrenches(SQLite::Database& database,
                                                         const RowFilter& filter) {
  SQLite::Statement row(database,
                        fmt::format(R"(
      SELECT {}, w.name, w.scale_low, w.scale_high, w.scale_unit, w.graduation, w.kind,
             w.accuracy_percent, w.serial, w.calibrated_on, w.valid_months,
             w.range_typed, w.graduation_typed, w.accuracy_typed, w.found_off_percent
      FROM wrench w JOIN {} e ON e.id = w.entry_id
      {} ORDER BY w.entry_id)",
                                    kStampColumns, filter.entries(), filter.where("w.name")));
  filter.bind(row);
  std::vector<record::Entry<record::Wrench>> wrenches;
  while (row.executeStep()) {
    record::Wrench wrench;
    wrench.name = text_at(row, 0);
    wrench.scale = {number_at(row, 1), number_at(row, 2), unit_from(text_at(row, 3))};
    wrench.graduation = number_at(row, 4);
    wrench.kind = record::read_word<record::WrenchKind>(text_at(row, 5));
    if (!is_null_at(row, 6)) wrench.accuracy = quantity::Percent::of_hundred(number_at(row, 6));
    wrench.serial = text_at(row, 7);
    if (!is_null_at(row, 8)) wrench.calibrated = record::read_day(text_at(row, 8));
    wrench.valid_months = integer_at(row, 9);
    wrench.scale_typed = text_at(row, 10);
    wrench.graduation_typed = text_at(row, 11);
    wrench.accuracy_typed = text_at(row, 12);
    if (!is_null_at(row, 13)) wrench.found_off = quantity::Percent::of_hundred(number_at(row, 13));
    wrenches.push_back({stamp_of(row), std::move(wrench)});
  }
  return wrenches;
}

}  // namespace logbook
