#pragma once

#include <SQLiteCpp/Statement.h>

#include <string>
#include <vector>

namespace logbook {

class RowWriter;

// Tables of one short column that belong to the rows of another, by entry id. Table and column are
// names of the schema, never what somebody typed.

void insert_positions(RowWriter& writer, const char* table, const std::string& id,
                      const std::vector<int>& positions);

// The same with the place of each beside it, from 1: in a table whose rows may have an order.
void insert_positions_in_order(RowWriter& writer, const char* table, const std::string& id,
                               const std::vector<int>& positions);

// `columns` as RowWriter::add takes them: that of the line, then that of the text.
void insert_texts(RowWriter& writer, const char* table, const char* columns, const std::string& id,
                  const std::vector<std::string>& texts);

// Reads such a table entry by entry, through its index: nothing of other entries is touched.
class ChildRows {
 public:
  ChildRows(SQLite::Database& database, const char* table, const char* column);

  // In the order of the alphabet. InputError where one is no text, or no code.
  [[nodiscard]] std::vector<std::string> texts_of(const std::string& id);
  [[nodiscard]] std::vector<std::string> codes_of(const std::string& id);

  // Rising. InputError for one that no joint can have.
  [[nodiscard]] std::vector<int> positions_of(const std::string& id);

 private:
  template <class Read>
  auto all_of(const std::string& id, const Read& read);

  SQLite::Statement row_;
};

}  // namespace logbook
