#pragma once

#include <functional>
#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/content.h"
#include "record/entry.h"
#include "record/history_line.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Database;
}

namespace logbook {

// The lines that every reader refuses, whatever their hashes say, by rising number, each once: one
// of them that is not struck shuts the whole logbook. A start that is not there is told as line 1.
// Some thousand lines are held at once; `line_read` is called once for each line there is.
[[nodiscard]] std::vector<record::UnreadableLine> unreadable_lines(
    SQLite::Database& database, const std::function<void()>& line_read = {});

// Every line that passes the filter, and whatever strikes any of these or is among them.
struct LinesRead {
  std::vector<record::HistoryLine>
      lines;  // of every kind but the strikes, in the order of their ids
  std::vector<record::Entry<record::Strike>> strikes;  // no strike is ever struck
};

// Reads them; one that cannot be read is put where the filter says, be it that its rows were lost
// or are of a kind that there is not: by rising number, each once, marked as struck where it is.
[[nodiscard]] LinesRead read_or_tell(SQLite::Database& database, const RowFilter& filter);

}  // namespace logbook
