// A logbook is its file, by whatever name it is reached: what SQLite keeps beside it is found
// through links, no name is taken for anything but a file, and a file that changes under a name
// that is open takes no line along.

#include <SQLiteCpp/SQLiteCpp.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>

#include "logbook/logbook.h"
#include "logbook/logbook_error.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
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

TEST_CASE("nothing gets the name of what SQLite keeps beside a logbook", "[logbook]") {
  Job job;
  const auto copy = job.trial.folder().file("copy.json");
  job.trial.done("export --to " + copy);
  for (const std::string tail : {"-wal", "-shm", "-journal"}) {
    const auto part = job.path + tail;
    const auto to_come = job.trial.folder().file("later.bolts") + tail;
    for (const auto& name : {part, to_come}) {
      for (const auto& command :
           {"start " + name + " --machine GB-2", "import " + copy + " --log " + name}) {
        INFO(command);
        const auto refused = job.trial.run(command);
        CHECK(refused.code == 1);
        CHECK_THAT(refused.said(), ContainsSubstring("choose another name"));
        CHECK_FALSE(fs::exists(name));
      }
    }
    fs::create_directory(job.trial.folder().file("stick"));
    const auto folder = job.trial.folder().file("stick/gb1.bolts") + tail;
    fs::copy_file(job.path, job.trial.folder().file("stick/gb1.bolts"));
    fs::create_directory(folder);
    CHECK_THAT(job.trial.run("backup " + folder).said(), ContainsSubstring("belongs to"));
    fs::remove_all(job.trial.folder().file("stick"));
  }
}

TEST_CASE("a logbook under the name of what SQLite keeps beside another is lost to neither",
          "[logbook]") {
  Job job;
  const auto precious = job.trial.folder().file("precious.bolts");
  job.trial.done("start " + precious + " --machine GB-2");
  job.trial.done("item CL1 --what clips --count 3 --log " + precious);
  const auto bytes = content_of(precious);
  const auto own = content_of(job.path);
  for (const std::string tail : {"-wal", "-shm", "-journal"}) {
    const auto part = job.path + tail;
    fs::copy_file(precious, part);
    for (const auto& command : {std::string("history"), std::string("out J01/1"),
                                std::string("verify"), std::string("status"), "merge " + precious,
                                "compare --log " + precious + " --with " + job.path,
                                "merge " + job.path + " --log " + precious}) {
      INFO(tail << ": " << command);
      const auto refused = job.trial.run(command);
      CHECK(refused.code == 3);
      CHECK_THAT(refused.said(), ContainsSubstring("beside " + job.path + " lies " + part));
    }
    for (const auto& command : {std::string("history"), std::string("item CL2 --what c --count 1"),
                                std::string("verify"), "compare --log " + precious + " --with "}) {
      INFO(tail << ": " << command);
      const auto is_named = command.ends_with(' ');
      const auto refused = job.trial.run(command + (is_named ? part : " --log " + part));
      CHECK(refused.code == 3);
      CHECK_THAT(refused.said(), ContainsSubstring("SQLite keeps beside " + job.path));
    }
    CHECK(content_of(part) == bytes);
    CHECK(content_of(job.path) == own);
    // Alone it can be read, and no other takes its place as its owner.
    fs::rename(job.path, job.path + ".away");
    CHECK(job.trial.run("history --log " + part).code == 0);
    const auto refused = job.trial.run("start " + job.path + " --machine GB-1");
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring(part + " lies there already"));
    CHECK(content_of(part) == bytes);
    fs::remove(part);
    fs::rename(job.path + ".away", job.path);
  }
  job.trial.done("out J01/1");
}

TEST_CASE("what is no file beside a logbook holds nobody up", "[logbook]") {
  Job job;
  const auto text = job.trial.folder().file("notes.txt");
  std::ofstream(text) << "notes of the shift\n";
  using Make = void (*)(const std::string&, const std::string&);
  const auto [what, make] = GENERATE(table<std::string, Make>(
      {{"which is no file",
        [](const std::string& name, const std::string&) { (void)::mkfifo(name.c_str(), 0600); }},
       {"which is a link",
        [](const std::string& name, const std::string&) { fs::create_symlink("/dev/zero", name); }},
       {"which is a link",
        [](const std::string& name, const std::string& notes) { fs::create_symlink(notes, name); }},
       {"which is a folder",
        [](const std::string& name, const std::string&) { fs::create_directory(name); }},
       {"which is not what SQLite keeps",
        [](const std::string& name, const std::string& notes) { fs::copy_file(notes, name); }}}));
  for (const std::string tail : {"-wal", "-shm", "-journal"}) {
    make(job.path + tail, text);
    for (const auto* command : {"history", "status", "out J01/1", "verify", "backup"}) {
      INFO(what << ' ' << tail << ": " << command);
      const auto refused = job.trial.run(command);
      CHECK(refused.code == 3);
      CHECK_THAT(refused.said(), ContainsSubstring(job.path + tail + ", " + what));
    }
    const auto other = job.trial.folder().file("other.bolts");
    make(other + tail, text);
    CHECK(job.trial.run("start " + other + " --machine GB-2").code == 1);
    CHECK_FALSE(fs::exists(other));
    CHECK(fs::exists(fs::symlink_status(job.path + tail)));
    fs::remove(job.path + tail);
    fs::remove(other + tail);
  }
  CHECK(content_of(text) == "notes of the shift\n");
  job.trial.done("out J01/1");
}

TEST_CASE("nothing but a logbook gets the name of one", "[logbook]") {
  Job job;
  auto& trial = job.trial;
  const auto file = [&](const char* name) { return trial.folder().file(name); };
  trial.done("photo J01 " + (fs::path(BOLTWITNESS_PICTURES) / "mark.jpg").string());
  const auto name = file("table.bolts");
  const auto others = [&] {
    return std::count_if(fs::directory_iterator(trial.folder().path()), fs::directory_iterator(),
                         [](const auto& each) { return each.path().stem() != "gb1"; });
  };
  for (const auto* command :
       {"export --to", "export --json-lines --to", "export joints --to", "export wrenches --to",
        "export findings --to", "export tightenings --to", "export photographs --to",
        "photo 3 --to", "report --out", "sheet J01 --out", "labels J01 --out",
        "report --replace-file --out"}) {
    CAPTURE(command);
    const auto refused = trial.run(std::string(command) + " " + name);
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("table.bolts has the name of a logbook") &&
                                   ContainsSubstring("does not end in .bolts"));
  }
  CHECK(others() == 0);
  // Nor is anything laid beside a table that does not come.
  std::ofstream(file("old.csv")) << "kept";
  CHECK(trial.run("export photographs --to " + file("old.csv")).code == 1);
  CHECK(others() == 1);
  trial.done("export photographs --to " + file("new.csv"));
  CHECK(others() == 3);
}

TEST_CASE("the shared memory of a long log is known as that", "[logbook]") {
  Job job;
  SQLite::Database reader(job.path, SQLite::OPEN_READWRITE);
  SQLite::Statement looking(reader, "SELECT count(*) FROM entry");
  looking.executeStep();
  // What a log of more than 16 MiB has.
  fs::resize_file(job.path + "-shm", 65536);
  CHECK(job.trial.run("history").code == 0);
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
