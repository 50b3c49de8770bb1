#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/rows/content_tables.h"

namespace SQLite {
class Column;
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

// A line as the one text that its hash is made of, whatever SQLite does with it on the disk. Two
// logbooks say the same in a line where, and only where, its texts are the same byte for byte.
//
//   entry
//   by_whom t2:KB
//   device t36:...
//   done_at t24:...
//   entered_at t24:...
//   id t36:...
//   kind t7:finding
//   finding
//   adapter_ratio r3ff0000000000000
//   joint_code t3:J06
//   ...
//   setting_reading
//   ...
//
// - First the line itself, without its number: that is one of this file alone. Then the rows of
//   every table that has the line's id as its entry_id, table after table by rising name; of one
//   table the rows by rising text. Names and texts are compared byte by byte.
// - A row is the name of its table and a line feed, then for each column by rising name: the name,
//   a blank, the value, a line feed. The column entry_id is left out, and so is every column whose
//   value is its default (NULL where the schema gives none), so that a column that a later schema
//   adds changes no line that is there already.
// - A value: a text is t, its length in bytes, a colon, its bytes in UTF-8. A whole number is i and
//   its decimal digits, with a hyphen before where it is negative. A number is r and the sixteen
//   hexadecimal digits of its IEEE 754 double (binary64), highest byte first; minus zero is zero.
//   NULL is n. Bytes that are no text, which the schema refuses, are b, their count, a colon, they.
//   What was typed for a value (unit, spelling) stands in columns of its own and so is covered.
class CanonicalLines {
 public:
  explicit CanonicalLines(SQLite::Database& database);
  ~CanonicalLines();
  CanonicalLines(const CanonicalLines&) = delete;
  CanonicalLines& operator=(const CanonicalLines&) = delete;

  // The line with this id; it is there.
  [[nodiscard]] std::string of(const std::string& id);

  // The same of a line that was just written, whose rows stand in these tables and no others.
  [[nodiscard]] std::string of(const std::string& id, const std::vector<const char*>& tables);

  struct Line {
    std::int64_t line = 0;
    std::string id = {};
    std::string device = {};
    std::string kind = {};
    std::string text = {};
    std::vector<std::string_view> tables = {};  // in which it has rows, by name
  };

  // Every line by rising id, in one pass over each table. `row_of_none` is told table and id of
  // rows that belong to no line.
  void for_each(const std::function<void(const Line&)>& visit,
                const std::function<void(const std::string&, const std::string&)>& row_of_none);

 private:
  class Rows;

  [[nodiscard]] Rows& table(const std::string& name);
  void find_all_tables();
  void begin_entry(std::string& text, const std::string& id);

  SQLite::Database& database_;
  std::unique_ptr<SQLite::Statement> entry_;
  std::map<std::string, std::unique_ptr<Rows>> tables_;  // those that were looked for
  bool has_all_tables_ = false;
};

// The columns that stand for a line in its own table.
inline constexpr const char* kCanonicalEntry =
    "line, id, device, by_whom, done_at, entered_at, kind";

}  // namespace logbook
