#pragma once

#include <string>
#include <vector>

#include "failure/failure.h"
#include "logbook/rows/cells.h"
#include "logbook/rows/row_filter.h"
#include "record/content.h"
#include "record/entry.h"

namespace logbook {

// Reads a statement ordered by entry id in one pass. Of the first row of each entry `made` makes
// its content, every row of it goes through `add`. An entry of which one row cannot be read is put
// where the filter says instead. SQLite::Exception for rows whose line is not found, as where a
// page of its index was changed: left out without a word they would be a hold point less.
template <class Kind, class Made, class Add>
[[nodiscard]] std::vector<record::Entry<Kind>> gathered(SQLite::Statement& row,
                                                        const RowFilter& filter, const Made& made,
                                                        const Add& add) {
  std::vector<record::Entry<Kind>> entries;
  std::string unreadable;  // id of the entry whose other rows are passed over
  while (step(row)) {
    refuse_if_of_no_line(row);
    if (is_of(row, unreadable)) continue;
    bool is_begun = !entries.empty() && is_of(row, entries.back().stamp.id);
    try {
      if (!is_begun) {
        if (kind_of(row) != record::Kinds::word_of<Kind>()) {
          throw failure::InputError(fmt::format("kind: {} with the rows of a {}",
                                                quantity::quoted(kind_of(row)),
                                                record::Kinds::word_of<Kind>()));
        }
        auto stamp = stamp_of(row);
        entries.push_back({std::move(stamp), made(row)});
        is_begun = true;
        if (filter.line_read != nullptr) (*filter.line_read)();
      }
      add(entries.back().content, row);
    } catch (const failure::InputError& error) {
      if (is_begun) entries.pop_back();
      unreadable = id_of(row);
      filter.unreadable.push_back({line_of(row), unreadable, kind_of(row), error.what()});
    }
  }
  return entries;
}

// The same where each entry is one row.
template <class Kind, class Made>
[[nodiscard]] std::vector<record::Entry<Kind>> gathered(SQLite::Statement& row,
                                                        const RowFilter& filter, const Made& made) {
  return gathered<Kind>(row, filter, made, [](const Kind&, SQLite::Statement&) {});
}

// The same where each row after `made` adds one position.
template <class Kind, class Made>
[[nodiscard]] std::vector<record::Entry<Kind>> gathered_positions(SQLite::Statement& row,
                                                                  const RowFilter& filter,
                                                                  int position_column,
                                                                  const Made& made) {
  return gathered<Kind>(row, filter, made, [&](Kind& content, SQLite::Statement& each) {
    content.positions.push_back(position_at(each, position_column));
  });
}

}  // namespace logbook
