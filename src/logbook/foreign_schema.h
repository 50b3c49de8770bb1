#pragma once

#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// What makes the schema of a file, held word for word against what the steps up to its version
// make, before any query of it: what somebody else put there would run with every line that is
// written or looked up, or make the rows say something else. Statistics that SQLite keeps where
// somebody asked for them are left alone.

// LogbookError (Damaged), naming it, for a table, index, trigger or view that is not ours or is
// another than ours, and for a table or view that is missing.
void check_schema(SQLite::Database& database, const std::string& path);

// The same before anything is written: also for an index or a trigger that is missing, and for a
// kind of line. Only of the newest version, to which every logbook is brought before it is written
// to.
void check_whole_schema(SQLite::Database& database, const std::string& path);

}  // namespace logbook
