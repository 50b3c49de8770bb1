// A logbook is its file, by whatever name it is reached: what SQLite keeps beside it is found
// through links, no name is taken for anything but a file, and a file that changes under a name
// that is open takes no line along.

#include <SQLiteCpp/SQLiteCpp.h>
#include <sys/stat.h>

#include <filesystem>
#include <optional>

#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/trial.h"

namespace file_names_test {

namespace {

namespace fs = std::filesystem;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
  }

  Trial trial;
  std::string path;
};

logbook::Writer writer() {
  const auto now = record::read_moment("2026-06-01T08:00:00Z");
  return {"AB", "00000000-0000-4000-8000-000000000002", now, now};
}

// The program changes into this folder, as somebody who types a name without one has.
class Inside {
 public:
  explicit Inside(const fs::path& folder) : before_(fs::current_path()) {
    fs::current_path(folder);
  }
  ~Inside() { fs::current_path(before_); }
  Inside(const Inside&) = delete;
  Inside& operator=(const Inside&) = delete;

 private:
  fs::path before_;
};

}  // namespace

TEST_CASE("a link leads to the logbook and to the lines in its log", "[logbook]") {
  Job job;
  const auto elsewhere = job.trial.folder().path() / "desk";
  fs::create_directory(elsewhere);
  const auto link = (elsewhere / "link.bolts").string();
  fs::create_symlink(job.path, link);
  std::optional<SQLite::Database> reader(std::in_place, job.path, SQLite::OPEN_READONLY);
  std::optional<SQLite::Transaction> looking(std::in_place, *reader);
  (void)reader->execAndGet("SELECT count(*) FROM entry").getInt();
  job.trial.done("out J01/1");  // in the log alone
  CHECK(logbook::Logbook::open_unchanged(link).last_line() == 3);
  CHECK(job.trial.done("history --log " + link).out == job.trial.done("history").out);
  job.trial.done("out J01/2 --log " + link);
  CHECK(logbook::Logbook::open_to_read(job.path).last_line() == 4);
  CHECK(fs::directory_iterator(elsewhere) != fs::directory_iterator());
  CHECK(std::distance(fs::directory_iterator(elsewhere), {}) == 1);
  looking.reset();
  reader.reset();
  // Somebody else's teardown, named by a link.
  const auto other = job.trial.folder().file("other.bolts");
  job.trial.done("start " + other + " --machine GB-1");
  CHECK(job.trial.run("compare --with " + link + " --log " + other).code != 3);
}

TEST_CASE("a file with two names is read and not written to", "[logbook]") {
  Job job;
  const auto second = job.trial.folder().file("second.bolts");
  fs::create_hard_link(job.path, second);
  for (const auto& name : {job.path, second}) {
    CHECK(job.trial.run("history --log " + name).code == 0);
    const auto refused = job.trial.run("out J01/1 --log " + name);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("has a second name (a hard link)") &&
                                   ContainsSubstring("nothing was written"));
  }
  fs::remove(second);
  CHECK(job.trial.run("out J01/1").code == 0);
}

TEST_CASE("a second name that a killed start left is taken away", "[logbook]") {
  Job job;
  fs::create_hard_link(job.path,
                       job.trial.folder().file(".writing-00000000-0000-4000-8000-000000000001"));
  CHECK(job.trial.run("out J01/1").code == 0);
}

TEST_CASE("no name is taken for a URI or for a database in memory", "[logbook]") {
  Trial trial;
  const Inside inside(trial.folder().path());
  for (const std::string name : {"file:x.bolts", "file:x.bolts?mode=memory", ":memory:"}) {
    trial.done("start plain.bolts --machine GB-1");
    fs::rename("plain.bolts", name);
    trial.done("item CL1 --what clips --count 3 --log " + name);
    CHECK(logbook::Logbook::open_to_read(trial.folder().file(name)).last_line() == 2);
    CHECK(logbook::Logbook::open_unchanged(name).last_line() == 2);
    CHECK(trial.run("verify --log " + name).code == 0);
  }
  trial.done("start file:y.bolts --machine GB-1");
  CHECK(fs::is_regular_file("file:y.bolts"));
  for (const auto* other : {"x.bolts", "y.bolts"}) CHECK_FALSE(fs::exists(other));
  fs::create_directory(trial.folder().file("file:stick"));
  trial.done("backup file:stick --log file:x.bolts");
  CHECK(fs::directory_iterator(trial.folder().file("file:stick")) != fs::directory_iterator());
}

TEST_CASE("what is no file is no logbook, and holds nobody up", "[logbook]") {
  Trial trial;
  const auto pipe = trial.folder().file("pipe.bolts");
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  for (const auto* command : {"history", "item CL1 --what clips --count 3", "verify"}) {
    const auto refused = trial.run(command + std::string(" --log ") + pipe);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("is no file"));
  }
  // One that is named as a draft is.
  const auto draft = trial.folder().file(".writing-00000000-0000-4000-8000-000000000001");
  REQUIRE(::mkfifo(draft.c_str(), 0600) == 0);
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  CHECK(fs::exists(draft));
}

TEST_CASE("a logbook that is moved or replaced while it is open takes no line along", "[logbook]") {
  using How = void (*)(const std::string&);
  for (const How change :
       {How([](const std::string& path) { fs::rename(path, path + ".old"); }),
        How([](const std::string& path) { fs::remove(path); }), How([](const std::string& path) {
          fs::copy_file(path, path + ".new");
          fs::rename(path + ".new", path);
        })}) {
    Job job;
    auto logbook = logbook::Logbook::open_to_write(job.path);
    logbook::Recording recording(logbook, writer());
    record::Removal removal;
    removal.joint = "J01";
    removal.positions = {1};
    recording.append(removal);
    change(job.path);
    CHECK_THROWS_WITH(recording.commit(),
                      ContainsSubstring("was moved, removed or replaced by another program") &&
                          ContainsSubstring("nothing was written"));
  }
}

}  // namespace file_names_test
