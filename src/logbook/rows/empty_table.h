#pragma once

#include <SQLiteCpp/Statement.h>

#include <string>

namespace logbook {

// Whether a table, by its name in the schema, has no row at all. Most logbooks have none of most
// kinds of lines, and to ask this first costs a tenth of preparing to read them.
[[nodiscard]] inline bool is_empty(SQLite::Database& database, const char* table) {
  SQLite::Statement any(database, std::string("SELECT 1 FROM ") + table + " LIMIT 1");
  return !any.executeStep();
}

}  // namespace logbook
