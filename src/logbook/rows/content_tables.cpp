#include "logbook/rows/content_tables.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace logbook {
namespace {

constexpr const char* kEntryId = "entry_id";

// A table as the catalogue has it, whether it holds what lines say or not.
struct AnyTable {
  ContentTable table;  // with all of its columns
  std::vector<std::pair<int, std::string>> key;
};

// `which` is a condition on the catalogue's row t of a table, with one parameter.
std::vector<AnyTable> tables_where(SQLite::Database& database, const char* which,
                                   const std::string& parameter) {
  SQLite::Statement row(database, fmt::format(R"(
      SELECT t.name, c.name, c.type, coalesce(c.dflt_value, ''), c.pk
      FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND {} ORDER BY t.name, c.cid)",
                                              which));
  row.bind(1, parameter);
  std::vector<AnyTable> tables;
  while (row.executeStep()) {
    const auto name = row.getColumn(0).getString();
    if (tables.empty() || tables.back().table.name != name) tables.push_back({{name, {}, {}}, {}});
    auto& [table, key] = tables.back();
    table.columns.push_back(
        {row.getColumn(1).getString(), row.getColumn(2).getString(), row.getColumn(3).getString()});
    if (const int place = row.getColumn(4).getInt(); place > 0) {
      key.emplace_back(place, table.columns.back().name);
    }
  }
  return tables;
}

// Nothing where its rows are of no line.
std::optional<ContentTable> content_in(AnyTable any) {
  auto& [table, key] = any;
  const auto id = std::ranges::find(table.columns, kEntryId, &ContentColumn::name);
  if (id == table.columns.end()) return std::nullopt;
  table.columns.erase(id);
  std::ranges::sort(key);
  for (auto& [place, name] : key) table.key.push_back(std::move(name));
  return std::move(table);
}

}  // namespace

std::vector<ContentTable> content_tables(SQLite::Database& database) {
  std::vector<ContentTable> content;
  for (auto& any : tables_where(database, "t.name <> ?", "line_hash")) {
    if (auto table = content_in(std::move(any))) content.push_back(*std::move(table));
  }
  return content;
}

ContentTable content_table(SQLite::Database& database, const std::string& name) {
  auto table = content_in(std::move(tables_where(database, "t.name = ?", name).at(0)));
  return *std::move(table);
}

std::string quoted_name(const std::string& name) {
  std::string quoted = "\"";
  for (const char c : name) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

}  // namespace logbook
