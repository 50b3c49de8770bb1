#pragma once

#include <string>
#include <vector>

namespace SQLite {
class Database;
}

namespace logbook {

struct ContentColumn {
  std::string name;
  std::string type;           // "TEXT", "INTEGER" or "REAL", as the schema declares it
  std::string default_value;  // as SQL; empty where the schema gives none
};

// A table that holds what lines say, one row or more for each; its rows carry the id of their line
// as entry_id. The table of the lines' hashes, which say nothing, is none of them.
struct ContentTable {
  std::string name;
  std::vector<ContentColumn> columns;  // without entry_id
  std::vector<std::string> key;        // primary key, in its order
};

// Every such table, by name, from the catalogue of the database itself.
[[nodiscard]] std::vector<ContentTable> content_tables(SQLite::Database& database);

// The one of this name, which is one.
[[nodiscard]] ContentTable content_table(SQLite::Database& database, const std::string& name);

// A name of the schema as SQL takes any name.
[[nodiscard]] std::string quoted_name(const std::string& name);

}  // namespace logbook
