#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/counted_item.h"
#include "record/entry.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::CountedItem& item);
void insert(SQLite::Database& database, const std::string& id, const record::ItemReturn& back);

// Entries in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::CountedItem>> read_items(
    SQLite::Database& database, const RowFilter& filter = {});
[[nodiscard]] std::vector<record::Entry<record::ItemReturn>> read_item_returns(
    SQLite::Database& database, const RowFilter& filter = {});

}  // namespace logbook
