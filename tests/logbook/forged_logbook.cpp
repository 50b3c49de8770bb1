#include "support/forged_logbook.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <functional>
#include <vector>

#include "logbook/canonical_line.h"
#include "logbook/hash_chain.h"

namespace {

void without_triggers(const std::string& path,
                      const std::function<void(SQLite::Database& database)>& work) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE);
  database.exec(
      "PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF; PRAGMA synchronous = OFF");
  std::vector<std::string> names;
  std::vector<std::string> triggers;
  {
    SQLite::Statement row(database, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (row.executeStep()) {
      names.push_back(row.getColumn(0).getString());
      triggers.push_back(row.getColumn(1).getString());
    }
  }
  for (const auto& name : names) database.exec("DROP TRIGGER " + name);
  work(database);
  for (const auto& text : triggers) database.exec(text);
}

}  // namespace

void alter(const std::string& path, const std::string& sql) {
  without_triggers(path, [&](SQLite::Database& database) { database.exec(sql); });
}

void forge(const std::string& path, const std::string& sql) {
  without_triggers(path, [&](SQLite::Database& database) {
    database.exec(sql + "; DELETE FROM line_hash");
    logbook::chain_all_lines(database);
  });
}

void forge_last(const std::string& path, const std::string& sql) {
  without_triggers(path, [&](SQLite::Database& database) {
    database.exec(sql);
    SQLite::Statement link(database, R"(
        SELECT id, device_before, file_before FROM entry JOIN line_hash ON entry_id = id
        ORDER BY line DESC)");
    if (!link.executeStep()) return;
    const auto id = link.getColumn(0).getString();
    const auto hash =
        logbook::hash_of({link.getColumn(1).getString(), link.getColumn(2).getString(), ""},
                         logbook::CanonicalLines(database).of(id));
    link.reset();
    database.exec(fmt::format("UPDATE line_hash SET hash = '{}' WHERE entry_id = '{}'", hash, id));
  });
}

void enlarge(const std::string& path) {
  SQLite::Database shell(path, SQLite::OPEN_READWRITE);
  shell.exec("CREATE TABLE room (a); INSERT INTO room VALUES (zeroblob(9000000)); DROP TABLE room");
}

std::vector<std::pair<std::string, std::string>> columns_of_text(const std::string& path) {
  SQLite::Database shell(path, SQLite::OPEN_READONLY);
  SQLite::Statement column(shell, R"(
      SELECT t.name, c.name FROM sqlite_schema t JOIN pragma_table_info(t.name) c
      WHERE t.type = 'table' AND c.type = 'TEXT' AND t.name <> 'line_hash'
            AND c.name NOT IN ('id', 'entry_id', 'line_id', 'struck_id') AND c.pk = 0
      ORDER BY 1, 2)");
  std::vector<std::pair<std::string, std::string>> columns;
  while (column.executeStep()) {
    columns.emplace_back(column.getColumn(0).getString(), column.getColumn(1).getString());
  }
  return columns;
}

std::int64_t last_line_of(const std::string& path, const std::string& kind) {
  SQLite::Database shell(path, SQLite::OPEN_READONLY);
  SQLite::Statement row(shell, R"(
      SELECT coalesce(max(line), 0) FROM entry
      WHERE kind = ? AND id NOT IN (SELECT struck_id FROM strike))");
  row.bind(1, kind);
  row.executeStep();
  return row.getColumn(0).getInt64();
}

void into_one_file(const std::string& path) {
  SQLite::Database(path, SQLite::OPEN_READWRITE).exec("PRAGMA wal_checkpoint(TRUNCATE)");
}
