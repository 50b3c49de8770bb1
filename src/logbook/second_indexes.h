#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace SQLite {
class Database;
}

namespace logbook {

// The indexes by which the lines of one joint or wrench, and the strikes of a line, are found. Each
// has a second one, "_again" behind its name (schema/0019_second_indexes.sql), that has to lead to
// the same lines: what damages a page of the one does not damage the same of the other. In a file
// that is not looked at whole (soundness.h) nothing else would tell that one leads to a line too
// few, or to another. What the lines say is held against their hashes.
class SecondIndexes {
 public:
  SecondIndexes(SQLite::Database& database, std::string path);

  // LogbookError (Damaged) where the two of a kind do not lead to the same lines about this joint,
  // or to a line that is not there.
  void check_joint(std::string_view code) const;

  // The same of the lines in this table that bear the name.
  void check_lines(std::string_view table, std::string_view name) const;

  // The same of all strikes: whether a line counts hangs on them, whoever asks.
  void check_strikes() const;

 private:
  struct Pair {
    std::string table;
    std::string index;
    std::vector<std::string> columns;  // the name first
  };
  void check(const Pair& pair, const std::string& name) const;
  [[noreturn]] void refuse(const Pair& pair) const;

  SQLite::Database& database_;
  std::string path_;
  std::vector<Pair> pairs_;
};

}  // namespace logbook
