#pragma once

#include <cstddef>
#include <set>
#include <vector>

#include "logbook/rows/kind_rows.h"
#include "record/history_line.h"
#include "record/job.h"

namespace logbook {

// What is done with every kind of line, folded over the list of kinds. A line that is read and
// contradicts itself, or names what there is not (record/content_check.h), is put with those that
// cannot be.

// Writes the rows of a line, whatever its kind.
void insert_content(RowWriter& writer, const std::string& id, const record::Content& content);

// The word of its kind in the table of kinds.
[[nodiscard]] std::string kind_of(const record::Content& content);

// The lines of one kind: of those that are looked up by a name of their own, joints and wrenches.
template <class Kind>
[[nodiscard]] std::vector<record::Entry<Kind>> read_consistent(SQLite::Database& database,
                                                               const RowFilter& filter);

// The first line of the logbook; nothing where it cannot be read.
[[nodiscard]] std::vector<record::Entry<record::LogbookStart>> read_start(
    SQLite::Database& database, const RowFilter& filter);

// Reads the lines of one joint (the name of the filter), or of all where it names none, into the
// job in place of what it held of them.
void read_lines_of_joints(SQLite::Database& database, const RowFilter& filter, record::Job& job);

// Reads all lines about no joint of their own (wrenches, fluids, items, hold points), without the
// first line of the logbook.
void read_lines_of_none(SQLite::Database& database, const RowFilter& filter, record::Job& job);

// How many lines of these kinds, strikes among them, pass the filter and can be read. `kinds` has
// the places of the kinds in their list.
[[nodiscard]] std::size_t count_readable(SQLite::Database& database, const RowFilter& filter,
                                         const std::set<std::size_t>& kinds);

// Every line of every kind but the strikes that passes the filter, in the order of their ids. The
// name of the filter is that of a joint: lines that are about none pass whatever it is.
[[nodiscard]] std::vector<record::HistoryLine> read_every_line(SQLite::Database& database,
                                                               const RowFilter& filter);

}  // namespace logbook
