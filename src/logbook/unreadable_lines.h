#pragma once

#include <functional>
#include <string>
#include <unordered_set>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

// The lines that every reader refuses, whatever their hashes say, by rising number, each once: one
// of them that is not struck shuts the whole logbook. A start that is not there is told as line 1.
// Some thousand lines are held at once; `line_read` is called for each that can be read.
[[nodiscard]] std::vector<record::UnreadableLine> unreadable_lines(
    SQLite::Database& database, const std::function<void()>& line_read = {});

// Puts to what cannot be read the lines that pass the filter and are not known: rows of `entry`
// that none of the kinds has rows for, since they were lost or are of a kind that there is not.
void add_lines_without_rows(SQLite::Database& database, const RowFilter& filter,
                            const std::unordered_set<std::string>& known);

}  // namespace logbook
