#include "logbook/patience.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

namespace logbook {

constexpr int kStepsAtATime = 1000;

Patience::Patience(SQLite::Database& database, std::int64_t thousands)
    : handle_(database.getHandle()), left_(thousands) {
  sqlite3_progress_handler(handle_, kStepsAtATime, is_at_its_end, this);
}

Patience::~Patience() { sqlite3_progress_handler(handle_, 0, nullptr, nullptr); }

int Patience::is_at_its_end(void* self) {
  return --static_cast<Patience*>(self)->left_ < 0 ? 1 : 0;
}

std::int64_t steps_to_verify(SQLite::Database& database) {
  constexpr std::int64_t kAtLeast = 20'000;
  constexpr std::int64_t kBytesATime = 100;
  return kAtLeast + database.execAndGet("PRAGMA page_count").getInt64() *
                        database.execAndGet("PRAGMA page_size").getInt64() / kBytesATime;
}

}  // namespace logbook
