#pragma once

#include <string>
#include <vector>

#include "logbook/rows/row_filter.h"
#include "record/content.h"
#include "record/entry.h"

namespace SQLite {
class Database;
}

namespace logbook {

class RowWriter;

// The rows of one kind of line. Each kind defines these two in the file of its rows
// (renewal_rows.cpp); the list of kinds alone declares and calls them, so that a kind without them
// does not link.
#pragma GCC diagnostic push
#ifndef __clang__  // which knows no such warning
#pragma GCC diagnostic ignored \
    "-Wnon-template-friend"  // an overload for each kind is what is meant
#endif
template <class Kind>
struct Rows {
  // Writes the rows of a line whose row in `entry` is there already.
  friend void insert_rows(RowWriter& writer, const std::string& id, const Kind& content, Rows kind);

  // The lines that pass the filter, in the order of their ids. Every value is held against its
  // range (cells.h).
  friend std::vector<record::Entry<Kind>> read_rows(SQLite::Database& database,
                                                    const RowFilter& filter, Rows kind);
};
#pragma GCC diagnostic pop

}  // namespace logbook
