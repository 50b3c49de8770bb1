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
};

// The steps embedded in the program, rising by one from 1.
[[nodiscard]] const std::vector<SchemaStep>& schema_steps();

// The version that a database has now.
[[nodiscard]] int schema_version(SQLite::Database& database);

// Applies every step above the database's version, each with its version number in one IMMEDIATE
// transaction that ends with a foreign-key check. Throws LogbookError (Damaged) where that check
// finds something; the step is then undone.
void apply_steps(SQLite::Database& database, const std::vector<SchemaStep>& steps);

}  // namespace logbook
