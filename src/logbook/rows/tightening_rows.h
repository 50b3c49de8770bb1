#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/entry.h"
#include "record/tightening.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id,
            const record::Tightening& tightening);

// Entries in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::Tightening>> read_tightenings(
    SQLite::Database& database, const RowFilter& filter = {});

}  // namespace logbook
