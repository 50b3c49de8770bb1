#include "logbook/rows/content_tables.h"

#include <SQLiteCpp/SQLiteCpp.h>

namespace logbook {
namespace {

ContentTable described(SQLite::Database& database, const std::string& name) {
  ContentTable table{name, {}, {}};
  SQLite::Statement column(database, R"(
      SELECT name, type, coalesce(dflt_value, '') FROM pragma_table_info(:table)
      WHERE name <> 'entry_id' ORDER BY cid)");
  column.bind(":table", name);
  while (column.executeStep()) {
    table.columns.push_back({column.getColumn(0).getString(), column.getColumn(1).getString(),
                             column.getColumn(2).getString()});
  }
  SQLite::Statement key(database, R"(
      SELECT name FROM pragma_table_info(:table) WHERE pk > 0 ORDER BY pk)");
  key.bind(":table", name);
  while (key.executeStep()) table.key.push_back(key.getColumn(0).getString());
  return table;
}

}  // namespace

std::vector<ContentTable> content_tables(SQLite::Database& database) {
  SQLite::Statement name(database, R"(
      SELECT t.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND c.name = 'entry_id' AND t.name <> 'line_hash' ORDER BY t.name)");
  std::vector<ContentTable> tables;
  while (name.executeStep()) {
    tables.push_back(described(database, name.getColumn(0).getString()));
  }
  return tables;
}

std::string quoted_name(const std::string& name) {
  std::string quoted = "\"";
  for (const char c : name) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

}  // namespace logbook
