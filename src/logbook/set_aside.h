#pragma once

#include <initializer_list>
#include <string>
#include <vector>

namespace SQLite {
class Database;
}

namespace logbook {

// Triggers that refuse what only a merge, the line after one or an import may do, out of the way
// until they are put back word for word. Another connection never sees the file without them: it is
// inside the transaction that is open, and undone with it.
class SetAside {
 public:
  // Those that an earlier version of the schema has not are passed over.
  SetAside(SQLite::Database& database, std::initializer_list<const char*> triggers);

  void put_back();

 private:
  SQLite::Database& database_;
  std::vector<std::string> texts_;
};

}  // namespace logbook
