#pragma once

#include <string>
#include <vector>

#include "record/entry.h"
#include "record/strike.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Strike& strike);

// Every strike there is, in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::Strike>> read_strikes(SQLite::Database& database);

}  // namespace logbook
