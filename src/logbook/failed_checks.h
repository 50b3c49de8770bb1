#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace SQLite {
class Database;
}

namespace logbook {

// SQLite does not read the CHECKs of a database that is opened without the right to write it, so
// that integrity_check finds every row of it in order. Here each row is held against them all the
// same, in a table of the same schema in memory, where it is taken out again: what is held at once
// does not grow with the file. The bytes of photographs are left out (photograph_bytes.h).
//
// What integrity_check would say of the rows that fail, at most so many: "CHECK constraint failed
// in fluid". Nothing where the database may be written. Its tables have to be those of its version
// of the schema (foreign_schema.h).
[[nodiscard]] std::vector<std::string> failed_checks(SQLite::Database& database, std::size_t most);

}  // namespace logbook
