#include "logbook/waiting.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <thread>

namespace logbook {

using std::chrono::milliseconds;

void Waiting::wait_in(SQLite::Database& database) {
  path_ = database.getFilename();
  sqlite3_busy_handler(database.getHandle(), again, this);
}

Waiting& Waiting::silent() {
  static Waiting nobody;
  return nobody;
}

Waiting& Waiting::not_at_all() {
  static Waiting nobody({}, milliseconds(0));
  return nobody;
}

int Waiting::again(void* waiting, int times_before) {
  return static_cast<Waiting*>(waiting)->wait(times_before) ? 1 : 0;
}

bool Waiting::wait(int times_before) {
  constexpr std::array kSteps = {milliseconds(1),  milliseconds(2),  milliseconds(5),
                                 milliseconds(10), milliseconds(15), milliseconds(25)};
  const auto now = Clock::now();
  if (times_before == 0) since_ = now;
  if (longest_ && now - since_ >= *longest_) return false;
  if (now - since_ >= kSilent && (told_ == Clock::time_point() || now - told_ >= kUsual)) {
    told_ = now;
    if (tell_) tell_(path_);
  }
  const auto step = std::min(static_cast<std::size_t>(times_before), kSteps.size() - 1);
  std::this_thread::sleep_for(kSteps[step]);
  return true;
}

}  // namespace logbook
