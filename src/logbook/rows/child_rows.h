#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "logbook/rows/stamp_columns.h"
#include "record/entry.h"

namespace SQLite {
class Database;
}

namespace logbook {

// Tables of one short column that belong to the rows of another, by entry id. Table and column are
// names of the schema, never what somebody typed.

void insert_positions(SQLite::Database& database, const char* table, const std::string& id,
                      const std::vector<int>& positions);

void insert_texts(SQLite::Database& database, const char* table, const char* column,
                  const std::string& id, const std::vector<std::string>& texts);

// Every text of the table by entry id, in the order of the alphabet.
[[nodiscard]] std::unordered_map<std::string, std::vector<std::string>> read_texts(
    SQLite::Database& database, const char* table, const char* column);

// Every position of the table by entry id, rising.
[[nodiscard]] std::unordered_map<std::string, std::vector<int>> read_positions(
    SQLite::Database& database, const char* table);

// True while the rows last.
[[nodiscard]] bool step(SQLite::Statement& row);

// Reads a statement of one row a position, ordered by entry id, in one pass: `made` makes the
// content of the first row of each entry, without its positions.
template <class Content, class Make>
[[nodiscard]] std::vector<record::Entry<Content>> gathered(SQLite::Statement& row,
                                                           int position_column, const Make& made) {
  std::vector<record::Entry<Content>> entries;
  while (step(row)) {
    if (entries.empty() || !is_of(row, entries.back().stamp)) {
      entries.push_back({stamp_of(row), made(row)});
    }
    entries.back().content.positions.push_back(integer_at(row, position_column));
  }
  return entries;
}

}  // namespace logbook
