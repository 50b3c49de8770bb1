#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/entry.h"
#include "record/hold_point.h"

namespace SQLite {
class Database;
}

namespace logbook {

void insert(SQLite::Database& database, const std::string& id, const record::HoldPoint& point);
void insert(SQLite::Database& database, const std::string& id, const record::HoldPointStep& step);

// Entries in the order of their ids.
[[nodiscard]] std::vector<record::Entry<record::HoldPoint>> read_hold_points(
    SQLite::Database& database, const RowFilter& filter = {});
[[nodiscard]] std::vector<record::Entry<record::HoldPointStep>> read_hold_point_steps(
    SQLite::Database& database, const RowFilter& filter = {});

}  // namespace logbook
