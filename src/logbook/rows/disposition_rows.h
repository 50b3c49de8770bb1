#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/disposition.h"
#include "record/entry.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id,
            const record::Disposition& disposition);

// Entries in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::Disposition>> read_dispositions(
    SQLite::Database& database, const RowFilter& filter = {});

}  // namespace logbook
