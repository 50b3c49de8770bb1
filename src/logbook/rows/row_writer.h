#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
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

  // Adds so many rows to this table, many in one statement: what SQLite sets up to check a row is
  // then set up once for all of them. `columns` is their list in parentheses, known again by its
  // address; `bind` binds the values of one row in their order, from the given place on, and leaves
  // out what is NULL.
  using BindRow = std::function<void(SQLite::Statement& rows, int first, std::size_t row)>;
  void add(const char* table, const char* columns, std::size_t rows, const BindRow& bind);

  // The tables that rows were added to since it was last asked, each once.
  [[nodiscard]] std::vector<const char*> take_tables();

 private:
  struct Held {
    const char* table;
    const char* columns_and_values;
    std::size_t rows;
    std::unique_ptr<SQLite::Statement> statement;
  };
  [[nodiscard]] SQLite::Statement& held(const char* table, const char* columns_and_values,
                                        std::size_t rows,
                                        const std::function<std::string()>& further);

  SQLite::Database& database_;
  std::vector<Held> held_;  // one for each table, and of `add` for each number of rows at once
  std::vector<const char*> tables_;
};

}  // namespace logbook
