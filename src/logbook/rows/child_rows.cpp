#include "logbook/rows/child_rows.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

namespace logbook {
namespace {

template <class Value>
void insert_each(SQLite::Database& database, const char* table, const char* column,
                 const std::string& id, const std::vector<Value>& values) {
  SQLite::Statement row(
      database, fmt::format("INSERT INTO {} (entry_id, {}) VALUES (:id, :value)", table, column));
  for (const auto& value : values) {
    row.reset();
    row.bind(":id", id);
    row.bind(":value", value);
    row.exec();
  }
}

std::string all_of(const char* table, const char* column) {
  return fmt::format("SELECT entry_id, {0} FROM {1} ORDER BY entry_id, {0}", column, table);
}

}  // namespace

void insert_positions(SQLite::Database& database, const char* table, const std::string& id,
                      const std::vector<int>& positions) {
  insert_each(database, table, "position", id, positions);
}

void insert_texts(SQLite::Database& database, const char* table, const char* column,
                  const std::string& id, const std::vector<std::string>& texts) {
  insert_each(database, table, column, id, texts);
}

std::unordered_map<std::string, std::vector<std::string>> read_texts(SQLite::Database& database,
                                                                     const char* table,
                                                                     const char* column) {
  std::unordered_map<std::string, std::vector<std::string>> texts;
  SQLite::Statement row(database, all_of(table, column));
  while (row.executeStep()) {
    texts[row.getColumn(0).getString()].push_back(row.getColumn(1).getString());
  }
  return texts;
}

std::unordered_map<std::string, std::vector<int>> read_positions(SQLite::Database& database,
                                                                 const char* table) {
  std::unordered_map<std::string, std::vector<int>> positions;
  SQLite::Statement row(database, all_of(table, "position"));
  while (row.executeStep()) {
    positions[row.getColumn(0).getString()].push_back(row.getColumn(1).getInt());
  }
  return positions;
}

bool step(SQLite::Statement& row) { return row.executeStep(); }

}  // namespace logbook
