#include "logbook/rows/child_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

// The cell is read as one that follows a stamp.
constexpr const char* kNoStamp = "NULL, NULL, NULL, NULL, NULL, NULL, NULL";

}  // namespace

void insert_positions(RowWriter& writer, const char* table, const std::string& id,
                      const std::vector<int>& positions) {
  writer.add(table, "(entry_id, position)", positions.size(),
             [&](SQLite::Statement& rows, int first, std::size_t i) {
               rows.bind(first, id);
               rows.bind(first + 1, positions[i]);
             });
}

void insert_positions_in_order(RowWriter& writer, const char* table, const std::string& id,
                               const std::vector<int>& positions) {
  writer.add(table, "(entry_id, position, place)", positions.size(),
             [&](SQLite::Statement& rows, int first, std::size_t i) {
               rows.bind(first, id);
               rows.bind(first + 1, positions[i]);
               rows.bind(first + 2, static_cast<std::int64_t>(i) + 1);
             });
}

void insert_texts(RowWriter& writer, const char* table, const char* columns, const std::string& id,
                  const std::vector<std::string>& texts) {
  writer.add(table, columns, texts.size(), [&](SQLite::Statement& rows, int first, std::size_t i) {
    rows.bind(first, id);
    rows.bind(first + 1, texts[i]);
  });
}

ChildRows::ChildRows(SQLite::Database& database, const char* table, const char* column)
    : row_(database, fmt::format("SELECT {2}, {1} FROM {0} WHERE entry_id = :id ORDER BY {1}",
                                 table, column, kNoStamp)) {}

template <class Read>
auto ChildRows::all_of(const std::string& id, const Read& read) {
  row_.reset();
  row_.bind(":id", id);
  std::vector<decltype(read(row_, 0))> values;
  while (row_.executeStep()) values.push_back(read(row_, 0));
  return values;
}

std::vector<std::string> ChildRows::texts_of(const std::string& id) { return all_of(id, text_at); }
std::vector<std::string> ChildRows::codes_of(const std::string& id) { return all_of(id, code_at); }
std::vector<int> ChildRows::positions_of(const std::string& id) { return all_of(id, position_at); }

}  // namespace logbook
