#include "logbook/rows/start_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/logbook_error.h"
#include "logbook/rows/stamp_columns.h"
#include "logbook/rows/word_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::LogbookStart& start) {
  SQLite::Statement row(database, R"(
      INSERT INTO logbook_start (entry_id, machine, unit, tolerance_percent, method_percent,
                                 tolerance_typed, method_typed, angle_degrees, angle_typed)
      VALUES (:id, :machine, :unit, :tolerance, :method, :tolerance_typed,
              :method_typed, :angle, :angle_typed))");
  row.bind(":id", id);
  row.bind(":machine", start.machine);
  row.bind(":unit", unit_text(start.unit));
  row.bind(":tolerance", start.default_tolerance.in_percent());
  row.bind(":method", start.method_error.in_percent());
  row.bind(":tolerance_typed", start.tolerance_typed);
  row.bind(":method_typed", start.method_typed);
  row.bind(":angle", start.angle_window.in_degrees());
  row.bind(":angle_typed", start.angle_typed);
  row.exec();
}

record::Entry<record::LogbookStart> read_start(SQLite::Database& database) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, s.machine, s.unit, s.tolerance_percent, s.method_percent, s.tolerance_typed,
             s.method_typed, s.angle_degrees, s.angle_typed
      FROM logbook_start s JOIN entry e ON e.id = s.entry_id
      ORDER BY s.entry_id LIMIT 1)",
                                              kStampColumns));
  if (!row.executeStep()) {
    throw LogbookError(LogbookError::Kind::Damaged, "this logbook has lost its first line");
  }
  record::Entry<record::LogbookStart> entry{
      stamp_of(row),
      {text_at(row, 0), unit_from(text_at(row, 1)),
       quantity::Percent::of_hundred(number_at(row, 2)),
       quantity::Percent::of_hundred(number_at(row, 3)), text_at(row, 4), text_at(row, 5)}};
  if (!is_null_at(row, 6)) {
    entry.content.angle_window = quantity::Angle::degrees(number_at(row, 6));
  }
  entry.content.angle_typed = text_at(row, 7);
  return entry;
}

}  // namespace logbook
