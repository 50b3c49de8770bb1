#pragma once

#include <string>

#include "record/strike.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Strike& strike);

}  // namespace logbook
