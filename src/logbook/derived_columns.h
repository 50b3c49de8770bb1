#pragma once

#include <vector>

#include "record/history_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Some columns hold in N·m what follows from other columns of their line; no command reads them,
// but whoever queries the file with SQL does. InputError, naming the line, where one is not what
// this program writes for the same line. The lines are all that there are, by rising id, or a part
// of them in which none is left out.
void check_derived_columns(SQLite::Database& database,
                           const std::vector<record::HistoryLine>& lines);

}  // namespace logbook
