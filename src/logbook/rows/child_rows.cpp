#include "logbook/rows/child_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "logbook/rows/cells.h"
#include "logbook/rows/row_writer.h"

namespace logbook {
namespace {

template <class Value>
void insert_each(RowWriter& writer, const char* table, const char* columns_and_values,
                 const std::string& id, const std::vector<Value>& values) {
  for (const auto& value : values) {
    auto& row = writer.into(table, columns_and_values);
    row.bind(":id", id);
    row.bind(":value", value);
    row.exec();
  }
}

// The cell is read as one that follows a stamp.
constexpr const char* kNoStamp = "NULL, NULL, NULL, NULL, NULL, NULL, NULL";

}  // namespace

void insert_positions(RowWriter& writer, const char* table, const std::string& id,
                      const std::vector<int>& positions) {
  insert_each(writer, table, "(entry_id, position) VALUES (:id, :value)", id, positions);
}

void insert_positions_in_order(RowWriter& writer, const char* table, const std::string& id,
                               const std::vector<int>& positions) {
  int place = 0;
  for (const int position : positions) {
    auto& row = writer.into(table, "(entry_id, position, place) VALUES (:id, :position, :place)");
    row.bind(":id", id);
    row.bind(":position", position);
    row.bind(":place", ++place);
    row.exec();
  }
}

void insert_texts(RowWriter& writer, const char* table, const char* columns_and_values,
                  const std::string& id, const std::vector<std::string>& texts) {
  insert_each(writer, table, columns_and_values, id, texts);
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
