#include "logbook/waiting.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <thread>

namespace logbook {

using std::chrono::milliseconds;

void Waiting::wait_in(SQLite::Database& database) {
  const auto path = database.getFilename();
  auto& held = files_.try_emplace(path, Held{this, path}).first->second;
  sqlite3_busy_handler(database.getHandle(), again, &held);
}

void Waiting::retry(SQLite::Database& database, const std::function<void()>& work) {
  const auto held = files_.find(database.getFilename());
  const auto begun = Clock::now();
  for (int times_before = 0;; ++times_before) {
    try {
      return work();
    } catch (const SQLite::Exception& error) {
      const bool can_wait = error.getErrorCode() == SQLITE_BUSY && held != files_.end() &&
                            !(longest_ && Clock::now() - begun >= *longest_);
      if (!can_wait || !wait(held->second, times_before)) throw;
    }
  }
}

Waiting& Waiting::silent() {
  static Waiting nobody;
  return nobody;
}

Waiting& Waiting::not_at_all() {
  static Waiting nobody({}, milliseconds(0));
  return nobody;
}

int Waiting::again(void* held, int times_before) {
  auto& file = *static_cast<Held*>(held);
  return file.waiting->wait(file, times_before) ? 1 : 0;
}

bool Waiting::wait(Held& held, int times_before) {
  constexpr std::array kSteps = {milliseconds(1),  milliseconds(2),  milliseconds(5),
                                 milliseconds(10), milliseconds(15), milliseconds(25)};
  const auto now = Clock::now();
  if (times_before == 0) held.since = now;
  if (longest_ && now - held.since >= *longest_) return false;
  if (now - held.since >= kSilent &&
      (held.told == Clock::time_point() || now - held.told >= kUsual)) {
    held.told = now;
    if (tell_) tell_(held.path);
  }
  const auto step = std::min(static_cast<std::size_t>(times_before), kSteps.size() - 1);
  std::this_thread::sleep_for(kSteps[step]);
  return true;
}

}  // namespace logbook
