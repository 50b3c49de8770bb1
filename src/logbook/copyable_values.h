#pragma once

#include <optional>
#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// A copy in text takes every line, value by value, whether the line can be read or not; but a value
// that no text holds.
struct ValueNoCopyHolds {
  std::string says;        // "line 7 (fluid): note holds ..."
  bool is_struck = false;  // the line; a signature never is
};

// The first line with such a value, by rising number, else the first signature; nothing where all
// of it can stand in a copy.
[[nodiscard]] std::optional<ValueNoCopyHolds> value_no_copy_holds(SQLite::Database& database);

}  // namespace logbook
