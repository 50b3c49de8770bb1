#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::Wrench wrench_of(SQLite::Statement& row) {
  record::Wrench wrench;
  wrench.name = some_text_at(row, 0);
  wrench.scale = {number_at(row, 1), positive_at(row, 2), unit_at(row, 3)};
  wrench.graduation = positive_at(row, 4);
  wrench.kind = word_at<record::WrenchKind>(row, 5);
  wrench.accuracy = if_any(percent_at, row, 6);
  wrench.serial = text_at(row, 7);
  if (!is_null_at(row, 8)) wrench.calibrated = read_at(row, 8, record::read_day);
  wrench.valid_months = integer_at(row, 9, 1, record::kMostMonths);
  wrench.scale_typed = text_at(row, 10);
  wrench.graduation_typed = text_at(row, 11);
  wrench.accuracy_typed = text_at(row, 12);
  wrench.found_off = if_any(percent_at, row, 13);
  if (wrench.scale.low < 0.0) refuse_cell(row, 1, "0 or more");
  if (wrench.scale.high <= wrench.scale.low) refuse_cell(row, 2, "more than the lower end");
  if (wrench.graduation > wrench.scale.high) refuse_cell(row, 4, "less than the scale");
  check_follows(row, 14, quantity::torque_of(wrench.scale.low, wrench.scale.unit));
  check_follows(row, 15, quantity::torque_of(wrench.scale.high, wrench.scale.unit));
  return wrench;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::Wrench& wrench,
                 Rows<record::Wrench>) {
  auto& row = writer.into("wrench", R"(
      (entry_id, name, scale_unit, scale_low, scale_high, scale_low_nm,
                          scale_high_nm, graduation, kind, accuracy_percent, serial, calibrated_on,
                          valid_months, range_typed, graduation_typed, accuracy_typed,
                          found_off_percent)
      VALUES (:id, :name, :scale_unit, :scale_low, :scale_high, :scale_low_nm,
              :scale_high_nm, :graduation, :kind, :accuracy, :serial, :calibrated,
              :valid_months, :range_typed, :graduation_typed, :accuracy_typed, :found_off))");
  const auto& scale = wrench.scale;
  row.bind(":id", id);
  row.bind(":name", wrench.name);
  row.bind(":scale_unit", text_of(scale.unit));
  row.bind(":scale_low", scale.low);
  row.bind(":scale_high", scale.high);
  row.bind(":scale_low_nm", quantity::torque_of(scale.low, scale.unit).in_newton_metres());
  row.bind(":scale_high_nm", quantity::torque_of(scale.high, scale.unit).in_newton_metres());
  row.bind(":graduation", wrench.graduation);
  row.bind(":kind", text_of(wrench.kind));
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

std::vector<record::Entry<record::Wrench>> read_rows(SQLite::Database& database,
                                                     const RowFilter& filter,
                                                     Rows<record::Wrench>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.name, rows.scale_low, rows.scale_high, rows.scale_unit, rows.graduation,
             rows.kind, rows.accuracy_percent, rows.serial, rows.calibrated_on, rows.valid_months,
             rows.range_typed, rows.graduation_typed, rows.accuracy_typed,
             rows.found_off_percent, rows.scale_low_nm, rows.scale_high_nm
      FROM wrench rows LEFT JOIN entry e ON e.id = rows.entry_id {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("name")));
  filter.bind(row);
  return gathered<record::Wrench>(row, filter, wrench_of);
}

}  // namespace logbook
