#pragma once

#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// Before the first query of a file: LogbookError (Damaged), naming it, where a trigger or view is
// not, or not word for word, one of those that this schema version has. What somebody else put
// there would run with every line that is written or looked up. A table or an index of somebody's
// own does no harm and is left alone.
void check_triggers_and_views(SQLite::Database& database, const std::string& path);

// The same before anything is written, of all that makes the schema: LogbookError (Damaged) also
// where a table, index, view or trigger that belongs to it is missing or another, or a kind of line
// is. Only of the newest version, to which every logbook is brought before it is written to.
void check_whole_schema(SQLite::Database& database, const std::string& path);

}  // namespace logbook
