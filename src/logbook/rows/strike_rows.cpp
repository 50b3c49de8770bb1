#include "logbook/rows/strike_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/stamp_columns.h"

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Strike& strike) {
  SQLite::Statement row(
      database, "INSERT INTO strike (entry_id, struck_id, reason) VALUES (:id, :struck, :reason)");
  row.bind(":id", id);
  row.bind(":struck", strike.struck_id);
  row.bind(":reason", strike.reason);
  row.exec();
}

std::vector<record::Entry<record::Strike>> read_strikes(SQLite::Database& database) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT {}, s.struck_id, s.reason
      FROM strike s JOIN entry e ON e.id = s.entry_id ORDER BY s.entry_id)",
                                              kStampColumns));
  std::vector<record::Entry<record::Strike>> strikes;
  while (row.executeStep()) strikes.push_back({stamp_of(row), {text_at(row, 0), text_at(row, 1)}});
  return strikes;
}

}  // namespace logbook
