#pragma once

#include <functional>

#include "logbook/rows/row_filter.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Calls `work` with the filter of some thousand lines, by rising id, until it was called with all.
void for_each_part(SQLite::Database& database, bool struck_too,
                   const std::function<void()>* line_read,
                   const std::function<void(const RowFilter&)>& work);

}  // namespace logbook
