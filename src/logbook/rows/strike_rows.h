#pragma once

#include <memory>
#include <string>
#include <vector>

#include "record/content.h"
#include "record/entry.h"
#include "record/unreadable_line.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace logbook {

// The strikes of what is not there or cannot be struck, which no program of ours writes.
[[nodiscard]] std::vector<record::UnreadableLine> strikes_of_nothing(SQLite::Database& database);

// The strikes of one line after the other, read with one statement.
class StrikesOfLine {
 public:
  explicit StrikesOfLine(SQLite::Database& database);
  ~StrikesOfLine();
  StrikesOfLine(const StrikesOfLine&) = delete;
  StrikesOfLine& operator=(const StrikesOfLine&) = delete;

  // Those of this line, which are as few as there were copies apart; none where it is not struck.
  // One that cannot be read is put to `unreadable`.
  [[nodiscard]] std::vector<record::Entry<record::Strike>> of(
      const std::string& id, std::vector<record::UnreadableLine>& unreadable);

 private:
  std::unique_ptr<SQLite::Statement> row_;
};

}  // namespace logbook
