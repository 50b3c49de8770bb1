#pragma once

#include <string>

#include "record/entry.h"
#include "record/logbook_start.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::LogbookStart& start);

// The first line of the logbook; LogbookError (Damaged) where there is none.
[[nodiscard]] record::Entry<record::LogbookStart> read_start(SQLite::Database& database);

}  // namespace logbook
