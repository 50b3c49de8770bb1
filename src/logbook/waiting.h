#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <string>

namespace SQLite {
class Database;
}

namespace logbook {

// How somebody waits for another program that holds a logbook: in small steps, told once it has
// taken a second, and given up after a while. Has to outlive what waits by it.
class Waiting {
 public:
  // Called with the file that is held, at most once a minute for each.
  using Tell = std::function<void(const std::string& path)>;

  static constexpr std::chrono::milliseconds kUsual = std::chrono::minutes(1);
  static constexpr std::chrono::milliseconds kSilent = std::chrono::seconds(1);

  explicit Waiting(Tell tell = {}, std::chrono::milliseconds longest = kUsual)
      : tell_(std::move(tell)), longest_(longest) {}
  Waiting(const Waiting&) = delete;
  Waiting& operator=(const Waiting&) = delete;
  ~Waiting() = default;

  // Has this connection wait so wherever it meets a lock.
  void wait_in(SQLite::Database& database);

  // Does the work on this connection, and again while somebody holds the file: where two might wait
  // for each other, SQLite gives up at once and asks nobody.
  void retry(SQLite::Database& database, const std::function<void()>& work);

  // From here on it is never given up.
  void wait_for_good() { longest_.reset(); }

  // For whoever has nobody to tell.
  [[nodiscard]] static Waiting& silent();

  // For a file that nobody else has open, or that can be done without.
  [[nodiscard]] static Waiting& not_at_all();

 private:
  using Clock = std::chrono::steady_clock;

  // One file: two may be open at once, and only one of them held.
  struct Held {
    Waiting* waiting = nullptr;
    std::string path;
    Clock::time_point since = {};
    Clock::time_point told = {};
  };

  static int again(void* held, int times_before);
  bool wait(Held& held, int times_before);

  Tell tell_;
  std::optional<std::chrono::milliseconds> longest_;  // nothing where for good
  std::map<std::string, Held> files_;                 // by path
};

}  // namespace logbook
