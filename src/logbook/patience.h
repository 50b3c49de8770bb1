#pragma once

#include <cstdint>

struct sqlite3;

namespace SQLite {
class Database;
}

namespace logbook {

// Gives up (SQLITE_INTERRUPT) what takes more than so many thousand steps of the library on this
// connection while it lives: pages can be made to lead to each other without end. One at a time.
class Patience {
 public:
  Patience(SQLite::Database& database, std::int64_t thousands);
  ~Patience();
  Patience(const Patience&) = delete;
  Patience& operator=(const Patience&) = delete;

 private:
  static int is_at_its_end(void* self);

  sqlite3* handle_;
  std::int64_t left_;
};

// For the first look at a file, of which nothing is known yet: reading its schema takes some
// thousand steps.
inline constexpr std::int64_t kForTheSchema = 2000;

// For a look at all of it: no sound file takes as many steps as it has bytes.
[[nodiscard]] std::int64_t steps_to_verify(SQLite::Database& database);

}  // namespace logbook
