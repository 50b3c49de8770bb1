#pragma once

namespace SQLite {
class Database;
}

namespace logbook {

// InputError where the joints that count have more positions together than a logbook may have
// (record::kMostPositionsInAll): every answer about the whole job walks through all of them.
void check_position_total(SQLite::Database& database);

}  // namespace logbook
