#include "support/forged_logbook.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <vector>

#include "logbook/hash_chain.h"

void forge(const std::string& path, const std::string& sql) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE);
  database.exec("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF");
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
  database.exec(sql + "; DELETE FROM line_hash");
  logbook::chain_all_lines(database);
  for (const auto& text : triggers) database.exec(text);
}
