#pragma once

#include <optional>
#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// A copy in text takes every line, value by value, whether the line can be read or not; but a value
// that no text holds. Tells the first line with such a value, by rising number, and which it is:
// "line 7 (fluid): note holds ..."; nothing where every line can stand in a copy.
[[nodiscard]] std::optional<std::string> value_no_copy_holds(SQLite::Database& database);

}  // namespace logbook
