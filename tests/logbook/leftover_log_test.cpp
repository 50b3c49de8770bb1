// A write-ahead log or a journal that a killed program left beside a logbook is played into the
// file that it belongs to, and into no other that was put in its place.

#include "logbook/leftover_log.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <fstream>
#include <optional>
#include <random>
#include <set>

#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/torture.h"
#include "support/trial.h"

namespace leftover_log_test {

namespace {

namespace fs = std::filesystem;

// A logbook of which lines stand in the log alone, as a power cut leaves it: somebody read it while
// they were written.
class Interrupted {
 public:
  Interrupted() {
    live_.environment["BOLTWITNESS_LOG"] = live();
    live_.done("start " + live() + " --machine GB-1");
    live_.done("joint J01 --holds cap --size M8 --grade 8.8 --count 40");
    for (int i = 1; i <= 4; ++i) live_.done("out J01/" + std::to_string(i));
    fs::copy_file(live(), trial.folder().file("early.bolts"));  // 6 lines
    for (int i = 5; i <= 8; ++i) live_.done("out J01/" + std::to_string(i));
    {
      SQLite::Database reader(live(), SQLite::OPEN_READONLY);
      SQLite::Transaction looking(reader);
      (void)reader.execAndGet("SELECT count(*) FROM entry").getInt();
      live_.done("item CL1 --what clips --count 3");  // line 11
      fs::copy_file(live(), path());
      fs::copy_file(live() + "-wal", path() + "-wal");
    }
    // What came later, as a copy of another day holds it.
    for (int i = 9; i <= 12; ++i) live_.done("out J01/" + std::to_string(i));
    fs::copy_file(live(), trial.folder().file("late.bolts"));  // 15 lines
    trial.environment["BOLTWITNESS_LOG"] = path();
  }
  [[nodiscard]] std::string path() const { return trial.folder().file("gb1.bolts"); }
  void put_back(const std::string& copy) const {
    fs::copy_file(trial.folder().file(copy), path(), fs::copy_options::overwrite_existing);
  }

  Trial trial;

 private:
  [[nodiscard]] std::string live() const { return live_.folder().file("gb1.bolts"); }

  Trial live_;
};

// A logbook on a disk that knows no shared memory, killed in the midst of a write: some of it is in
// the file, and the journal takes it back.
class HalfWritten {
 public:
  HalfWritten() {
    Trial live;
    const auto from = live.folder().file("gb1.bolts");
    live.environment["BOLTWITNESS_LOG"] = from;
    live.done("start " + from + " --machine GB-1");
    live.done("joint J01 --holds cap --size M8 --grade 8.8 --count 40");
    for (int i = 1; i <= 4; ++i) live.done("out J01/" + std::to_string(i));
    fs::copy_file(from, trial.folder().file("early.bolts"));  // 6 lines
    for (int i = 5; i <= 9; ++i) live.done("out J01/" + std::to_string(i));
    {
      SQLite::Database writer(from, SQLite::OPEN_READWRITE);
      writer.exec("PRAGMA journal_mode = DELETE");
      writer.exec("PRAGMA cache_size = 1");  // so that it goes to the disk before its end
      SQLite::Transaction never_done(writer, SQLite::TransactionBehavior::IMMEDIATE);
      for (const auto* trigger : {"entry_never_changed", "removal_never_changed"}) {
        writer.exec(std::string("DROP TRIGGER ") + trigger);
      }
      writer.exec("UPDATE entry SET by_whom = 'QQ'");
      writer.exec("UPDATE removal SET note = 'QQ'");
      writer.exec("CREATE TABLE more (text TEXT)");
      writer.exec("INSERT INTO more VALUES (zeroblob(100000))");
      fs::copy_file(from, path());
      fs::copy_file(from + "-journal", path() + "-journal");
    }
    live.done("out J01/10");
    fs::copy_file(from, trial.folder().file("late.bolts"));  // 12 lines
    trial.environment["BOLTWITNESS_LOG"] = path();
  }
  [[nodiscard]] std::string path() const { return trial.folder().file("gb1.bolts"); }
  void put_back(const std::string& copy) const {
    fs::copy_file(trial.folder().file(copy), path(), fs::copy_options::overwrite_existing);
  }

  Trial trial;
};

}  // namespace

TEST_CASE("the journal of a write that was not finished is played back into its logbook",
          "[logbook]") {
  HalfWritten job;
  REQUIRE(logbook::has_journal(job.path()));
  CHECK(job.trial.done("verify --json").out.find("\"lines\": 11") != std::string::npos);
  CHECK_FALSE(fs::exists(job.path() + "-journal"));
  CHECK(content_of(job.path()).find("QQ") == std::string::npos);
}

TEST_CASE("a journal is not played back into a copy that was put in the place of its file",
          "[logbook]") {
  for (const auto* copy : {"early.bolts", "late.bolts"}) {
    HalfWritten job;
    job.put_back(copy);
    const auto file = content_of(job.path());
    const auto journal = content_of(job.path() + "-journal");
    for (const auto* command : {"history", "out J01/20", "verify", "backup", "status"}) {
      INFO(copy << ": " << command);
      const auto refused = job.trial.run(command);
      CHECK(refused.code == 3);
      CHECK(refused.out.empty());
      CHECK_THAT(refused.said(), ContainsSubstring("gb1.bolts-journal") &&
                                     ContainsSubstring("does not belong to this file") &&
                                     ContainsSubstring("into another folder and try again"));
    }
    CHECK(content_of(job.path()) == file);
    CHECK(content_of(job.path() + "-journal") == journal);
    fs::remove(job.path() + "-journal");
    CHECK(job.trial.run("verify").code == 0);
  }
}

TEST_CASE("a file that is only to be read is not read half written", "[logbook]") {
  HalfWritten job;
  const auto other = job.trial.folder().file("late.bolts");
  const auto file = content_of(job.path());
  const auto refused = job.trial.run("merge " + job.path() + " --log " + other);
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("in the midst of a line") &&
                                 ContainsSubstring("boltwitness status --log"));
  CHECK(content_of(job.path()) == file);
  job.trial.run("status");
  CHECK(job.trial.run("merge " + job.path() + " --log " + other).code == 0);
}

TEST_CASE("a journal that another program is writing is its own", "[logbook]") {
  Trial trial;
  const auto path = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.done("start " + path + " --machine GB-1");
  SQLite::Database writer(path, SQLite::OPEN_READWRITE);
  writer.exec("PRAGMA journal_mode = DELETE");
  SQLite::Transaction at_work(writer, SQLite::TransactionBehavior::IMMEDIATE);
  writer.exec("CREATE TABLE more (text TEXT)");
  REQUIRE(fs::exists(path + "-journal"));
  trial.patience = std::chrono::milliseconds(20);
  // Readers are let in, and see what was there before.
  CHECK(trial.run("history").code == 0);
  CHECK_THAT(trial.run("item CL1 --what clips --count 3").said(), ContainsSubstring("is held by"));
}

TEST_CASE("what a killed program left in the log belongs to the logbook", "[logbook]") {
  Interrupted job;
  CHECK(logbook::Logbook::open_unchanged(job.path()).last_line() == 11);
  CHECK(fs::exists(job.path() + "-wal"));
  CHECK(job.trial.done("history").out.find("CL1") != std::string::npos);
  CHECK_FALSE(fs::exists(job.path() + "-wal"));
  CHECK(job.trial.done("verify").code == 0);
}

TEST_CASE("the log of a later logbook is not played into an earlier copy", "[logbook]") {
  Interrupted job;
  job.put_back("early.bolts");
  const auto file = content_of(job.path());
  const auto log = content_of(job.path() + "-wal");
  for (const auto* command : {"history", "out J01/20", "verify", "backup", "status"}) {
    const auto refused = job.trial.run(command);
    CHECK(refused.code == 3);
    CHECK(refused.out.empty());
    CHECK_THAT(refused.said(), ContainsSubstring("gb1.bolts-wal") &&
                                   ContainsSubstring("does not belong to this file") &&
                                   ContainsSubstring("into another folder and try again"));
  }
  CHECK_THROWS_AS(logbook::Logbook::open_unchanged(job.path()), logbook::LogbookError);
  CHECK(content_of(job.path()) == file);
  CHECK(content_of(job.path() + "-wal") == log);
  fs::remove(job.path() + "-wal");
  CHECK(job.trial.done("verify --json").out.find("\"lines\": 6") != std::string::npos);
}

TEST_CASE("the log of an earlier day takes no lines from a later copy", "[logbook]") {
  Interrupted job;
  job.put_back("late.bolts");
  const auto file = content_of(job.path());
  const auto refused = job.trial.run("out J01/20");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("does not belong to this file"));
  CHECK(content_of(job.path()) == file);
}

TEST_CASE("the log of another logbook is not played in", "[logbook]") {
  Interrupted job;
  fs::remove(job.path());
  Trial other;
  const auto another = other.folder().file("gb2.bolts");
  other.done("start " + another + " --machine GB-2");
  fs::copy_file(another, job.path());
  const auto refused = job.trial.run("history");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("does not belong to this file"));
  CHECK(content_of(job.path()) == content_of(another));
}

TEST_CASE("a log that another program is at work with is its own", "[logbook]") {
  Interrupted job;
  std::optional<SQLite::Database> other(std::in_place, job.path(), SQLite::OPEN_READWRITE);
  (void)other->execAndGet("SELECT count(*) FROM entry").getInt();
  REQUIRE(fs::exists(job.path() + "-wal"));
  CHECK(job.trial.run("item CL2 --what clips --count 3").code == 0);
}

TEST_CASE("what was told stands in the file itself, for whoever copies it by hand", "[logbook]") {
  Trial trial;
  const auto path = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.done("start " + path + " --machine GB-1");
  // Somebody has it open, and looks at nothing just now.
  SQLite::Database idle(path, SQLite::OPEN_READWRITE);
  (void)idle.execAndGet("SELECT count(*) FROM entry").getInt();
  trial.done("item CL1 --what clips --count 3");
  REQUIRE(fs::exists(path + "-wal"));
  const auto copy = trial.folder().file("copy.bolts");
  fs::copy_file(path, copy);
  CHECK(logbook::Logbook::open_unchanged(copy).last_line() == 2);
}

namespace {

// A logbook at many moments, each with the log that lay beside it then: somebody read it now and
// then, so that some lines were in the log alone.
class Moments {
 public:
  struct Moment {
    std::string file;
    std::string log;  // empty where there was none
    std::vector<std::string> lines;
  };

  explicit Moments(const std::string& machine) {
    Trial trial;
    const auto path = trial.folder().file("gb1.bolts");
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine " + machine);
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 100");
    for (int sitting = 0; sitting < 5; ++sitting) {
      std::optional<SQLite::Database> reader;
      if (sitting % 2 == 1) {
        reader.emplace(path, SQLite::OPEN_READONLY);
        reader->exec("BEGIN");
        (void)reader->execAndGet("SELECT count(*) FROM entry").getInt();
      }
      for (int i = 1; i <= 5; ++i) {
        trial.done("out J01/" + std::to_string(5 * sitting + i) + " --note '" +
                   std::string(static_cast<std::size_t>(40 * i), 'x') + "'");
        Moment moment{content_of(path), content_of(path + "-wal"), {}};
        SQLite::Database now(path, SQLite::OPEN_READONLY);
        moment.lines = ids_in(now);
        all.push_back(std::move(moment));
      }
    }
  }

  static std::vector<std::string> ids_in(SQLite::Database& database) {
    SQLite::Statement row(database, "SELECT id FROM entry ORDER BY line");
    std::vector<std::string> ids;
    while (row.executeStep()) ids.push_back(row.getColumn(0).getString());
    return ids;
  }

  std::vector<Moment> all;
};

}  // namespace

TEST_CASE("whatever log lies beside a logbook, it is played in where it belongs or refused",
          "[logbook][torture][slow]") {
  const Moments gearbox("GB-1");
  const Moments pump("P-4");
  std::mt19937 random(20260602);
  Trial trial;
  const auto path = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  std::set<std::vector<std::string>> stages;
  for (const auto& moment : gearbox.all) stages.insert(moment.lines);
  const auto wanted = trials(120, 6000);
  std::size_t played = 0;
  std::size_t refused = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t i = 0; i < wanted; ++i) {
    const auto& file = gearbox.all[random() % gearbox.all.size()];
    // Its own log, that of another moment or of another logbook; whole, cut short, or a bit of it
    // turned.
    const bool is_own = random() % 3 == 0;
    const auto& from = random() % 4 == 0 ? pump : gearbox;
    const auto& other = from.all[random() % from.all.size()];
    auto log = is_own ? file.log : other.log;
    const auto harm = random() % 4;
    if (harm == 0) log.resize(random() % (log.size() + 1));
    if (harm == 1 && !log.empty())
      log[random() % log.size()] ^= static_cast<char>(1U << random() % 8);
    for (const auto* tail : {"-wal", "-shm", "-journal"}) fs::remove(path + tail);
    std::ofstream(path, std::ios::binary) << file.file;
    if (!log.empty()) std::ofstream(path + "-wal", std::ios::binary) << log;
    const std::string command = random() % 2 == 0 ? "history --whole" : "verify";
    const auto answer = trial.run(command);
    std::string wrong;
    if (answer.code == 3) {
      ++refused;
      if (content_of(path) != file.file) wrong = "refused, and the file is another";
      if (content_of(path + "-wal") != log) wrong = "refused, and the log is another";
      if (is_own && harm > 1) wrong = "its own log is refused: " + answer.said();
    } else if (answer.code == 0) {
      ++played;
      SQLite::Database now(path, SQLite::OPEN_READONLY);
      const auto lines = Moments::ids_in(now);
      if (!stages.contains(lines)) wrong = "lines that it never had";
      if (is_own && harm > 1 && lines != file.lines) wrong = "told lines are gone";
      if (!logbook::verify(path).fits()) wrong = "does not fit";
    } else {
      wrong = "exit " + std::to_string(answer.code) + ": " + answer.said();
    }
    if (!wrong.empty() && faults++ == 0) first = "trial " + std::to_string(i) + ": " + wrong;
  }
  tell_torture("a log left beside a logbook", wanted,
               faults == 0 ? std::to_string(played) + " played in or passed over, " +
                                 std::to_string(refused) + " refused, nothing changed"
                           : first,
               faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(played > 0);
  CHECK(refused > 0);
}

}  // namespace leftover_log_test
