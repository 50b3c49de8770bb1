#include "logbook/start_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "logbook/logbook_error.h"
#include "logbook/word_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::LogbookStart& start) {
  SQLite::Statement row(database, R"(
      INSERT INTO logbook_start (entry_id, machine, unit, tolerance_percent, method_percent)
      VALUES (:id, :machine, :unit, :tolerance, :method))");
  row.bind(":id", id);
  row.bind(":machine", start.machine);
  row.bind(":unit", unit_text(start.unit));
  row.bind(":tolerance", start.default_tolerance.in_percent());
  row.bind(":method", start.method_error.in_percent());
  row.exec();
}

record::LogbookStart read_start(SQLite::Database& database) {
  SQLite::Statement row(database, R"(
      SELECT machine, unit, tolerance_percent, method_percent
      FROM logbook_start ORDER BY entry_id LIMIT 1)");
  if (!row.executeStep()) {
    throw LogbookError(LogbookError::Kind::Damaged, "this logbook has lost its first line");
  }
  return {row.getColumn(0).getString(), unit_from(row.getColumn(1).getString()),
          quantity::Percent::of_hundred(row.getColumn(2).getDouble()),
          quantity::Percent::of_hundred(row.getColumn(3).getDouble())};
}

}  // namespace logbook
