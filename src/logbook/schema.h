#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace SQLite {
class Database;
}

namespace logbook {

// "BWit" as four bytes: marks a file as one of ours (PRAGMA application_id).
inline constexpr int kApplicationId = 0x42576974;

// One file of schema/, by its number. A step carries no BEGIN and no COMMIT.
struct SchemaStep {
  int version;
  std::string_view sql;
  // What SQL cannot do of it, such as reading measures out of words; runs behind it, in the same
  // transaction.
  void (*complete)(SQLite::Database& database) = nullptr;
};

// The files of schema/ embedded in the program, rising by one from 1.
[[nodiscard]] const std::vector<SchemaStep>& embedded_steps();

// The same, each with what completes it.
[[nodiscard]] const std::vector<SchemaStep>& schema_steps();

// schema/current.sql: all of them in one piece, with the number of the last.
[[nodiscard]] std::string_view current_schema();

// Those of them that lead to this version.
[[nodiscard]] std::vector<SchemaStep> steps_up_to(int version);

// Makes the tables, in a database that has none, as a program of that version makes them; the
// newest in one piece, since every step that alters a table has SQLite read all that stands before
// it once more.
void make_tables(SQLite::Database& database, int version);

// The version that a database has now.
[[nodiscard]] int schema_version(SQLite::Database& database);

// Applies every step above the database's version, each with its version number in one IMMEDIATE
// transaction that ends with a foreign-key check; inside a transaction that is open, in that one.
// Throws LogbookError (Damaged) where that check finds something; the step is then undone.
void apply_steps(SQLite::Database& database, const std::vector<SchemaStep>& steps);

}  // namespace logbook
