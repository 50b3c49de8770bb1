#pragma once

#include <memory>
#include <vector>

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

// Writes the rows of lines, one line after the other. Each statement is prepared once, however many
// lines there are, which is most of what a row would cost otherwise.
class RowWriter {
 public:
  explicit RowWriter(SQLite::Database& database);
  ~RowWriter();
  RowWriter(const RowWriter&) = delete;
  RowWriter& operator=(const RowWriter&) = delete;

  // The statement that adds a row to this table, with nothing bound. `columns_and_values` is what
  // stands behind the name of the table; it is known again by its address and so outlives this.
  [[nodiscard]] SQLite::Statement& into(const char* table, const char* columns_and_values);

  // The tables that rows were added to since it was last asked, each once.
  [[nodiscard]] std::vector<const char*> take_tables();

 private:
  struct Held {
    const char* table;
    const char* columns_and_values;
    std::unique_ptr<SQLite::Statement> statement;
  };

  SQLite::Database& database_;
  std::vector<Held> held_;  // a few
  std::vector<const char*> tables_;
};

}  // namespace logbook
