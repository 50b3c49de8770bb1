#include "logbook/schema.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/logbook_error.h"

namespace logbook {

int schema_version(SQLite::Database& database) {
  return database.execAndGet("PRAGMA user_version").getInt();
}

void apply_steps(SQLite::Database& database, const std::vector<SchemaStep>& steps) {
  for (const auto& step : steps) {
    if (step.version <= schema_version(database)) continue;
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    database.exec(std::string(step.sql));
    if (SQLite::Statement orphans(database, "PRAGMA foreign_key_check"); orphans.executeStep()) {
      throw LogbookError(LogbookError::Kind::Damaged,
                         fmt::format("schema step {} leaves rows in {} that point nowhere; the "
                                     "logbook was left as it was",
                                     step.version, orphans.getColumn(0).getString()));
    }
    database.exec(fmt::format("PRAGMA user_version = {}", step.version));
    transaction.commit();
  }
}

}  // namespace logbook
