#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/gathered.h"
#include "logbook/rows/kind_rows.h"

namespace logbook {
namespace {

record::LogbookStart start_of(SQLite::Statement& row) {
  return {some_text_at(row, 0), unit_at(row, 1), percent_at(row, 2),
          percent_at(row, 3),   text_at(row, 4), text_at(row, 5)};
}

}  // namespace

void insert_rows(SQLite::Database& database, const std::string& id,
                 const record::LogbookStart& start, Rows<record::LogbookStart>) {
  SQLite::Statement row(database, R"(
      INSERT INTO logbook_start (entry_id, machine, unit, tolerance_percent, method_percent,
                                 tolerance_typed, method_typed)
      VALUES (:id, :machine, :unit, :tolerance, :method, :tolerance_typed, :method_typed))");
  row.bind(":id", id);
  row.bind(":machine", start.machine);
  row.bind(":unit", text_of(start.unit));
  row.bind(":tolerance", start.default_tolerance.in_percent());
  row.bind(":method", start.method_error.in_percent());
  row.bind(":tolerance_typed", start.tolerance_typed);
  row.bind(":method_typed", start.method_typed);
  row.exec();
}

std::vector<record::Entry<record::LogbookStart>> read_rows(SQLite::Database& database,
                                                           const RowFilter& filter,
                                                           Rows<record::LogbookStart>) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, rows.machine, rows.unit, rows.tolerance_percent, rows.method_percent,
             rows.tolerance_typed, rows.method_typed
      FROM logbook_start rows CROSS JOIN entry e ON e.id = rows.entry_id
      {} ORDER BY rows.entry_id)",
                                              kStampColumns, filter.where("machine")));
  filter.bind(row);
  return gathered<record::LogbookStart>(row, filter, start_of);
}

}  // namespace logbook
