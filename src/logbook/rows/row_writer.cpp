#include "logbook/rows/row_writer.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace logbook {

RowWriter::RowWriter(SQLite::Database& database) : database_(database) {}
RowWriter::~RowWriter() = default;

SQLite::Statement& RowWriter::into(const char* table, const char* columns_and_values) {
  const auto is_same = [&](const char* known) { return std::string_view(known) == table; };
  if (std::ranges::none_of(tables_, is_same)) tables_.push_back(table);
  const auto held = std::ranges::find_if(held_, [&](const Held& each) {
    return each.columns_and_values == columns_and_values && each.table == table;
  });
  if (held != held_.end()) {
    held->statement->reset();
    held->statement->clearBindings();
    return *held->statement;
  }
  held_.push_back({table, columns_and_values,
                   std::make_unique<SQLite::Statement>(
                       database_, fmt::format("INSERT INTO {} {}", table, columns_and_values))});
  return *held_.back().statement;
}

std::vector<const char*> RowWriter::take_tables() { return std::exchange(tables_, {}); }

}  // namespace logbook
