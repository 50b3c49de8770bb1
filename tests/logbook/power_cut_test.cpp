// The power goes at any place of what the program writes, on a disk that keeps nothing but what was
// made sure (sync), tears what was not, or keeps any part of it: the logbook opens as before, and
// holds every line that was acknowledged.

#include "logbook/power_cut.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <set>

#include "failure/failure.h"
#include "logbook/logbook.h"
#include "logbook/verification.h"
#include "logbook/watched_disk.h"
#include "support/catch.h"
#include "support/every_deed.h"
#include "support/torture.h"
#include "support/trial.h"

namespace power_cut_test {

namespace {

namespace fs = std::filesystem;
using Event = WatchedDisk::Event;

std::vector<std::string> ids_in(const std::string& path) {
  SQLite::Database file(path, SQLite::OPEN_READWRITE);
  SQLite::Statement row(file, "SELECT id FROM entry ORDER BY line");
  std::vector<std::string> ids;
  while (row.executeStep()) ids.push_back(row.getColumn(0).getString());
  return ids;
}

// What was done while the disk was watched, as it ended.
struct Story {
  std::vector<Event> events;
  std::set<std::vector<std::string>> stages;  // the ids of all lines after each command
  std::string file;                           // its name without the folder
};

// A logbook in a folder of its own, and a disk that is watched from `watch` on.
class Told {
 public:
  Told() {
    trial.environment["BOLTWITNESS_LOG"] = path();
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
  }
  [[nodiscard]] std::string path() const { return trial.folder().file("p4.bolts"); }
  void watch() {
    disk_.emplace();
    // Read through it, so that the logbook lies on the disk before its lines are told.
    const auto ids = lines();
    story_.stages.insert(ids);
    disk_->told(ids.size());
  }
  void deed(const std::string& command, const std::string& typed = {}) {
    trial.typed = typed;
    trial.done(command);
    const auto ids = lines();
    story_.stages.insert(ids);
    disk_->told(ids.size());
  }
  Story end() {
    story_.events = disk_->events();
    disk_.reset();
    story_.file = "p4.bolts";
    return std::move(story_);
  }

  Trial trial;

 private:
  [[nodiscard]] std::vector<std::string> lines() const {
    return fs::exists(path()) ? ids_in(path()) : std::vector<std::string>();
  }

  std::optional<WatchedDisk> disk_;
  Story story_;
};

// What is wrong with the files that the power left; empty where nothing is.
std::string wrong_with(const fs::path& folder, const Story& story, std::size_t told) {
  const auto path = (folder / story.file).string();
  if (!fs::exists(path)) {
    return told == 0 ? std::string() : fmt::format("{} lines told, and no logbook", told);
  }
  try {
    for (const auto& file : fs::directory_iterator(folder)) {
      const auto name = file.path().filename().string();
      if (name.starts_with(".writing-") || name.find(".bolts") == name.npos ||
          name.ends_with("-wal") || name.ends_with("-shm") || name.ends_with("-journal")) {
        continue;
      }
      if (!logbook::verify(file.path().string()).is_as_written()) return name + " does not fit";
    }
    const auto ids = ids_in(path);
    if (ids.size() < told) return fmt::format("{} lines told, {} there", told, ids.size());
    if (!story.stages.contains(ids)) return fmt::format("other lines, {} of them", ids.size());
    if (fs::exists(path + "-wal")) return "its log is still there";
    (void)logbook::Logbook::open_to_write(path).job();
  } catch (const failure::Failure& error) {
    return error.what();
  } catch (const SQLite::Exception& error) {
    return error.what();
  }
  return {};
}

// Cuts the power so often, at places all over the story.
void cut(const std::string& what, const Story& story, std::size_t cuts) {
  std::mt19937 random(20260602);
  std::size_t faults = 0;
  std::string first;
  const auto places = story.events.size() + 1;
  for (std::size_t i = 0; i < cuts; ++i) {
    const auto before = cuts >= places ? i % places : random() % places;
    const auto lost = kEveryLoss[random() % std::size(kEveryLoss)];
    const std::size_t sector = random() % 2 == 0 ? 512 : 4096;
    const TemporaryFolder folder;
    const auto told = lay_out(story.events, before, lost, sector, random, folder.path());
    const auto wrong = wrong_with(folder.path(), story, told);
    if (wrong.empty()) continue;
    if (faults++ == 0) {
      first = fmt::format("before event {} of {}, loss {}: {}", before, places - 1,
                          static_cast<int>(lost), wrong);
    }
  }
  tell_torture("power cut: " + what, cuts,
               faults == 0 ? fmt::format("every told line there ({} events)", places - 1) : first,
               faults);
  INFO(what << ": " << first);
  CHECK(faults == 0);
}

}  // namespace

TEST_CASE("a power cut takes no line that was told, whatever is being written",
          "[logbook][torture]") {
  Told told;
  told.watch();
  for (const auto& deed : every_deed(told.trial.folder(), told.path())) {
    told.deed(deed.command, deed.typed);
  }
  const auto story = told.end();
  REQUIRE(story.stages.rbegin()->size() > 20);
  cut("commands of every kind", story, trials(40, 4000));
}

TEST_CASE("a power cut in an upgrade leaves the logbook as it was, or as it is to be",
          "[logbook][torture]") {
  for (const std::string version : {"1", "7"}) {
    Told told;
    fs::copy_file(BOLTWITNESS_SAVED "/version_" + version + ".bolts", told.path());
    told.watch();
    told.trial.now = record::read_moment("2027-01-01T08:00:00Z");
    told.deed("item NEW --what clips --count 3");
    told.deed("item NEW --back 2");
    cut("upgrade from version " + version, told.end(), trials(10, 800));
  }
}

TEST_CASE("a power cut takes nothing of a copy that was put back and gone on with",
          "[logbook][torture]") {
  Told told;
  told.trial.done("start " + told.path() + " --machine GB-1");
  told.trial.done("item CL1 --what clips --count 3");
  told.trial.done("backup");
  const auto copies = told.trial.folder().file("copies");
  fs::remove(told.path());
  fs::copy_file(fs::directory_iterator(copies)->path(), told.path());
  told.watch();
  for (int i = 0; i < 4; ++i) told.deed(fmt::format("item C{} --what clips --count 3", i));
  cut("a copy put back", told.end(), trials(25, 2000));
}

TEST_CASE("a power cut takes nothing while somebody reads", "[logbook][torture]") {
  Told told;
  told.trial.done("start " + told.path() + " --machine GB-1");
  told.watch();
  {
    SQLite::Database reader(told.path(), SQLite::OPEN_READONLY);
    SQLite::Transaction looking(reader);
    (void)reader.execAndGet("SELECT count(*) FROM entry").getInt();
    for (int i = 0; i < 5; ++i) told.deed(fmt::format("item C{} --what clips --count 3", i));
  }
  for (int i = 5; i < 10; ++i) told.deed(fmt::format("item C{} --what clips --count 3", i));
  cut("with a reader in the way", told.end(), trials(25, 3000));
}

TEST_CASE("a power cut in a merge leaves the logbook as it was, or merged", "[logbook][torture]") {
  Told told;
  const auto apart = told.trial.folder().file("apart.bolts");
  told.trial.done("start " + told.path() + " --machine GB-1");
  fs::copy_file(told.path(), apart);
  for (int i = 0; i < 40; ++i) {
    told.trial.done(fmt::format("item C{} --what clips --count 3", i));
    told.trial.done(fmt::format("item D{} --what clips --count 3 --log {}", i, apart));
  }
  told.watch();
  told.deed("merge " + apart);
  told.deed("item C40 --what clips --count 3");
  cut("a merge of 40 lines into 41", told.end(), trials(25, 2000));
}

TEST_CASE("a power cut leaves a copy whole or none", "[logbook][torture]") {
  Told told;
  told.trial.done("start " + told.path() + " --machine GB-1");
  told.trial.done("item CL1 --what clips --count 3");
  const auto text = told.trial.folder().file("copy.json");
  told.trial.done("export --to " + text);
  told.watch();
  // Into the same folder, so that the copies are looked at as the logbook is.
  told.deed("backup " + told.trial.folder().path().string());
  told.deed("import " + text + " --log " + told.trial.folder().file("again.bolts"));
  cut("backup, and import of an export", told.end(), trials(25, 2000));
}

// Without what holds it durable the test would see it.
TEST_CASE("a disk that was told to hurry loses lines, and the test sees it", "[logbook][torture]") {
  Told told;
  told.trial.done("start " + told.path() + " --machine GB-1");
  told.watch();
  auto story = [&] {
    for (int i = 0; i < 5; ++i) told.deed(fmt::format("item C{} --what clips --count 3", i));
    return told.end();
  }();
  // As with synchronous=OFF.
  std::erase_if(story.events, [](const Event& event) { return event.what == Event::What::Sync; });
  std::mt19937 random(1);
  std::size_t seen = 0;
  for (std::size_t before = 0; before <= story.events.size(); before += 5) {
    const TemporaryFolder folder;
    const auto told_lines =
        lay_out(story.events, before, Unsynced::Lost, 512, random, folder.path());
    if (!wrong_with(folder.path(), story, told_lines).empty()) ++seen;
  }
  CHECK(seen > 0);
}

}  // namespace power_cut_test
