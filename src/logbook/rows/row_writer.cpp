#include "logbook/rows/row_writer.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace logbook {

RowWriter::RowWriter(SQLite::Database& database) : database_(database) {}
RowWriter::~RowWriter() = default;

SQLite::Statement& RowWriter::into(const char* table, const char* columns_and_values) {
  return held(table, columns_and_values, 1, [] { return std::string(); });
}

void RowWriter::add(const char* table, const char* columns, std::size_t rows, const BindRow& bind) {
  const auto width = 1 + std::ranges::count(std::string_view(columns), ',');
  constexpr std::size_t kMostAtOnce = 32;
  for (std::size_t from = 0; from < rows; from += kMostAtOnce) {
    const auto count = std::min(kMostAtOnce, rows - from);
    auto& statement = held(table, columns, count, [&] {
      const auto row = fmt::format(
          "({})", fmt::join(std::vector<char>(static_cast<std::size_t>(width), '?'), ", "));
      return fmt::format(" VALUES {}", fmt::join(std::vector<std::string>(count, row), ", "));
    });
    for (std::size_t i = 0; i < count; ++i) {
      bind(statement, static_cast<int>(i) * static_cast<int>(width) + 1, from + i);
    }
    statement.exec();
  }
}

SQLite::Statement& RowWriter::held(const char* table, const char* columns_and_values,
                                   std::size_t rows, const std::function<std::string()>& further) {
  const auto is_same = [&](const char* known) { return std::string_view(known) == table; };
  if (std::ranges::none_of(tables_, is_same)) tables_.push_back(table);
  const auto known = std::ranges::find_if(held_, [&](const Held& each) {
    return each.columns_and_values == columns_and_values && each.table == table &&
           each.rows == rows;
  });
  if (known != held_.end()) {
    known->statement->reset();
    known->statement->clearBindings();
    return *known->statement;
  }
  held_.push_back(
      {table, columns_and_values, rows,
       std::make_unique<SQLite::Statement>(
           database_, fmt::format("INSERT INTO {} {}{}", table, columns_and_values, further()))});
  return *held_.back().statement;
}

std::vector<const char*> RowWriter::take_tables() { return std::exchange(tables_, {}); }

}  // namespace logbook
