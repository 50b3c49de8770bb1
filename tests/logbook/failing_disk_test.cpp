// Each call of SQLite to the disk fails in turn, once or from then on: the command says so with
// exit code 3 and nothing is written, or it is done; never a line that was told and is not there,
// nor one that is there and was told not to be.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <filesystem>
#include <fstream>
#include <utility>

#include "logbook/verification.h"
#include "logbook/watched_disk.h"
#include "support/catch.h"
#include "support/every_deed.h"
#include "support/torture.h"
#include "support/trial.h"

namespace failing_disk_test {

namespace {

namespace fs = std::filesystem;
using Call = WatchedDisk::Call;

constexpr std::pair<Call, const char*> kCalls[] = {{Call::Open, "open"},
                                                   {Call::Read, "read"},
                                                   {Call::Write, "write"},
                                                   {Call::Truncate, "truncate"},
                                                   {Call::Sync, "sync"},
                                                   {Call::Size, "size"},
                                                   {Call::Lock, "lock"},
                                                   {Call::Delete, "delete"},
                                                   {Call::Access, "access"},
                                                   {Call::MapShared, "shared memory"},
                                                   {Call::LockShared, "shared lock"}};

// What a disk says there, and how much of a write it takes.
std::vector<std::pair<int, double>> failures_of(Call call) {
  switch (call) {
    case Call::Open:
      return {{SQLITE_CANTOPEN, 0}};
    case Call::Read:
      return {{SQLITE_IOERR_READ, 0}};
    case Call::Write:
      return {{SQLITE_IOERR_WRITE, 0}, {SQLITE_IOERR_WRITE, 0.5}, {SQLITE_FULL, 0}};
    case Call::Truncate:
      return {{SQLITE_IOERR_TRUNCATE, 0}};
    case Call::Sync:
      return {{SQLITE_IOERR_FSYNC, 0}};
    case Call::Size:
      return {{SQLITE_IOERR_FSTAT, 0}};
    case Call::Lock:
      return {{SQLITE_IOERR_LOCK, 0}, {SQLITE_BUSY, 0}};
    case Call::Delete:
      return {{SQLITE_IOERR_DELETE, 0}};
    case Call::Access:
      return {{SQLITE_IOERR_ACCESS, 0}};
    case Call::MapShared:
      return {{SQLITE_IOERR_SHMMAP, 0}, {SQLITE_IOERR_NOMEM, 0}};
    case Call::LockShared:
      return {{SQLITE_IOERR_SHMLOCK, 0}, {SQLITE_BUSY, 0}};
  }
  return {};
}

std::int64_t lines_in(const std::string& path) {
  SQLite::Database file(path, SQLite::OPEN_READWRITE, 0, "unix");
  return file.execAndGet("SELECT coalesce(max(line), 0) FROM entry").getInt64();
}

// A logbook that each trial begins with a copy of, and a command to try on it.
class Tried {
 public:
  Tried(std::string command, const std::string& logbook) : command_(std::move(command)) {
    trial_.environment["BOLTWITNESS_LOG"] = path();
    trial_.environment["XDG_DATA_HOME"] = trial_.folder().file("own");
    trial_.patience = std::chrono::milliseconds(5);
    fs::copy_file(logbook, trial_.folder().file("before"));
    fs::create_directory(trial_.folder().file("stick"));
    std::ofstream(trial_.folder().file("rows.csv"))
        << "joint,holds,size,grade,count\nJ17,plate,M8,8.8,4\nJ18,guard,M8,8.8,4\n";
    // A copy of it that is gone on with.
    apart_ = trial_.folder().file("apart.bolts");
    fs::copy_file(logbook, apart_);
    trial_.done("item CL9 --what pins --count 2 --log " + apart_);
    const auto at = command_.find("FOLDER");
    if (at != command_.npos) command_.replace(at, 6, trial_.folder().path().string());
    begin();
    before_ = lines_in(path());
    disk_.fail(std::nullopt);
    trial_.done(command_);
    after_ = lines_in(path());
    for (const auto& [call, name] : kCalls) counts_[call] = disk_.calls(call);
  }

  [[nodiscard]] std::size_t count(Call call) const { return counts_.at(call); }

  // What is wrong with how this was borne; empty where nothing is.
  std::string borne(const WatchedDisk::Fault& fault) {
    begin();
    disk_.fail(fault);
    const auto outcome = trial_.run(command_);
    const bool has_failed = disk_.has_failed();
    disk_.fail(std::nullopt);
    if (!has_failed) return {};
    const auto lines = lines_in(path());
    const auto told = fmt::format(" [{}: {}{}]", outcome.code, outcome.out, outcome.err);
    const bool is_done = outcome.code == 0;
    // Of a disk that fails to make sure of what it was given, and of no other, nobody knows.
    const bool is_in_doubt = fault.code == SQLITE_IOERR_FSYNC &&
                             outcome.err.find("nobody knows yet") != std::string::npos;
    if (!is_done && outcome.code != 3) return "exit code" + told;
    if (is_done && lines != after_) return fmt::format("done, {} lines", lines) + told;
    if (is_in_doubt && lines != before_ && lines != after_) return "half there" + told;
    if (!is_done && !is_in_doubt && lines != before_)
      return fmt::format("failed, {} lines", lines) + told;
    if (!is_done && (outcome.err.empty() || !outcome.out.empty())) return "what is told" + told;
    if (!is_done && !is_in_doubt && fs::exists(path() + ".before-merge"))
      return "a copy is left" + told;
    if (!logbook::verify(path()).is_as_written()) return "does not fit" + told;
    return {};
  }

 private:
  [[nodiscard]] std::string path() const { return trial_.folder().file("p4.bolts"); }
  void begin() {
    for (const auto* tail : {"", "-wal", "-shm", "-journal", ".before-merge"}) {
      fs::remove(path() + tail);
    }
    fs::copy_file(trial_.folder().file("before"), path());
    fs::remove_all(trial_.folder().file("own"));
  }

  Trial trial_;
  WatchedDisk disk_;
  std::string command_;
  std::string apart_;
  std::int64_t before_ = 0;
  std::int64_t after_ = 0;
  std::map<Call, std::size_t> counts_;
};

// Every `step`-th call of each kind.
void let_fail(const std::string& what, Tried& tried, std::size_t step) {
  std::size_t done = 0;
  std::size_t faults = 0;
  std::string first;
  for (const auto& [call, name] : kCalls) {
    for (const auto& [code, share] : failures_of(call)) {
      for (const bool lasting : {false, true}) {
        for (std::size_t number = done % step; number < tried.count(call); number += step) {
          const auto wrong = tried.borne({call, number, code, lasting, share});
          ++done;
          if (wrong.empty()) continue;
          if (faults++ == 0) {
            first = fmt::format("{} {} of {} fails with {}{}: {}", name, number, tried.count(call),
                                code, lasting ? " from then on" : "", wrong);
          }
          UNSCOPED_INFO(first);
        }
      }
    }
  }
  tell_torture("failing calls: " + what, done, faults == 0 ? "told, exit 3, or done" : first,
               faults);
  INFO(what << ": " << first);
  CHECK(faults == 0);
  CHECK(done > 0);
}

// With lines of every kind in it.
class ReadyLogbook {
 public:
  ReadyLogbook() {
    trial_.environment["BOLTWITNESS_LOG"] = path();
    trial_.environment["XDG_DATA_HOME"] = trial_.folder().file("own");
    for (const auto& deed : every_deed(trial_.folder(), path())) {
      trial_.typed = deed.typed;
      trial_.done(deed.command);
    }
  }
  [[nodiscard]] std::string path() const { return trial_.folder().file("ready.bolts"); }

 private:
  Trial trial_;
};

}  // namespace

TEST_CASE("a disk that fails in any call takes no line that was told", "[logbook][torture]") {
  const ReadyLogbook ready;
  const std::vector<std::pair<std::string, std::size_t>> commands = {
      {"item CL5 --what clips --count 3", 53},
      {"strike 16 --why 'another joint'", 107},
      {"out J05/1,4 --bag B9 --replace 25 --why 'another bag'", 107},
      {"found J01/2 20s 25o 26p --wrench TW1", 139},
      {"import FOLDER/rows.csv", 107},
      {"sign --by AB", 71},
      {"merge FOLDER/apart.bolts", 211},
      {"backup FOLDER/stick", 139}};
  for (const auto& [command, step] : commands) {
    Tried tried(command, ready.path());
    let_fail(command, tried, trials(step, 1));
  }
}

TEST_CASE("a disk that fails in any call leaves an upgrade done or not begun",
          "[logbook][torture]") {
  Tried tried("item NEW --what clips --count 3", BOLTWITNESS_SAVED "/version_7.bolts");
  let_fail("upgrade from version 7", tried, trials(199, 2));
}

TEST_CASE("a disk that fails in any call leaves a copy put back as it was or written to",
          "[logbook][torture]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("backup");
  const auto copy = fs::directory_iterator(trial.folder().file("copies"))->path().string();
  Tried tried("item CL2 --what clips --count 3", copy);
  let_fail("a copy put back", tried, trials(53, 1));
}

}  // namespace failing_disk_test
