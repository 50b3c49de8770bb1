#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

record::LogbookStart start_of(SQLite::Statement& row) {
  record::LogbookStart start;
  start.machine = some_text_at(row, 0);
  start.unit = unit_at(row, 1);
  start.default_tolerance = percent_at(row, 2);
  start.method_error = percent_at(row, 3);
  start.tolerance_typed = text_at(row, 4);
  start.method_typed = text_at(row, 5);
  if (const auto window = if_any(positive_at, row, 6)) {
    start.angle_window = quantity::Angle::degrees(*window);
  }
  start.angle_typed = text_at(row, 7);
  return start;
}

}  // namespace

void insert_rows(RowWriter& writer, const std::string& id, const record::LogbookStart& start,
                 Rows<record::LogbookStart>) {
  auto& row = writer.into("logbook_start", R"(
      (entry_id, machine, unit, tolerance_percent, method_percent,
                                 tolerance_typed, method_typed, angle_degrees, angle_typed)
      VALUES (:id, :machine, :unit, :tolerance, :method, :tolerance_typed, :method_typed, :angle,
              :angle_typed))");
  row.bind(":id", id);
  row.bind(":machine", start.machine);
  row.bind(":unit", text_of(start.unit));
  row.bind(":tolerance", start.default_tolerance.in_percent());
  row.bind(":method", start.method_error.in_percent());
  row.bind(":tolerance_typed", start.tolerance_typed);
  row.bind(":method_typed", start.method_typed);
  row.bind(":angle", start.angle_window.in_degrees());
  row.bind(":angle_typed", start.angle_typed);
  row.exec();
}

std::vector<record::Entry<record::LogbookStart>> read_rows(SQLite::Database& database,
                                                           const RowFilter& filter,
                                                           Rows<record::LogbookStart>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.machine, rows.unit, rows.tolerance_percent, rows.method_percent,
             rows.tolerance_typed, rows.method_typed, rows.angle_degrees, rows.angle_typed
      FROM logbook_start rows LEFT JOIN entry e ON e.id = rows.entry_id
      {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("machine")));
  filter.bind(row);
  return gathered<record::LogbookStart>(row, filter, start_of);
}

}  // namespace logbook
