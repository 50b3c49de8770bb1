#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/entry.h"
#include "record/wrench.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::Wrench& wrench);

// Entries in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::Wrench>> read_wrenches(
    SQLite::Database& database, const RowFilter& filter = {});

}  // namespace logbook
