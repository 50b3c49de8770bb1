// What is told to have been written is on the disk by then: the file before it has its name, and
// its name before it is told.

#include <filesystem>
#include <fstream>
#include <optional>

#include "logbook/watched_disk.h"
#include "support/catch.h"
#include "support/trial.h"

namespace lasting_file_test {

namespace {

using Event = WatchedDisk::Event;
using What = Event::What;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
  }

  Trial trial;
  std::string path;
};

// The place of this event about the file among those of the disk, behind another.
std::optional<std::size_t> place_of(const std::vector<Event>& events, What what,
                                    const std::string& file, std::size_t behind = 0) {
  for (std::size_t i = behind; i < events.size(); ++i) {
    if (events[i].what == what && events[i].file == file) return i;
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("a new file is on the disk, and its name, before it is told", "[logbook]") {
  Job job;
  const auto folder = job.trial.folder().path().string();
  const std::vector<std::pair<std::string, std::string>> made = {
      {"export --to " + folder + "/copy.json", folder + "/copy.json"},
      {"sheet --out " + folder + "/sheet.html", folder + "/sheet.html"},
      {"sheet --out " + folder + "/sheet.html", folder + "/sheet.html"},  // in place of the first
      {"start " + folder + "/gb2.bolts --machine GB-2", folder + "/gb2.bolts"},
      {"import " + folder + "/copy.json --log " + folder + "/gb3.bolts", folder + "/gb3.bolts"},
      {"sign", folder + "/own/boltwitness/signing-key"}};
  for (const auto& [command, file] : made) {
    INFO(command);
    const WatchedDisk disk;
    job.trial.done(command);
    const auto& events = disk.events();
    std::optional<std::size_t> named;
    for (std::size_t i = 0; i < events.size(); ++i) {
      if (events[i].what == What::Rename && events[i].to == file) named = i;
    }
    REQUIRE(named);
    const auto draft = events[*named].file;
    // Nothing is written to it after its last sync and before it has its name.
    std::optional<std::size_t> synced;
    std::optional<std::size_t> written;
    for (std::size_t i = 0; i < *named; ++i) {
      if (events[i].file != draft) continue;
      if (events[i].what == What::Sync) synced = i;
      if (events[i].what == What::Write || events[i].what == What::Truncate) written = i;
    }
    REQUIRE(synced);
    REQUIRE(written);
    CHECK(*written < *synced);
    CHECK(place_of(events, What::SyncFolder, std::filesystem::path(file).parent_path().string(),
                   *named));
  }
}

TEST_CASE(
    "a line is synced in the log before it is told, and in the file before the log is taken "
    "away",
    "[logbook]") {
  Job job;
  const WatchedDisk disk;
  job.trial.done("item CL1 --what clips --count 3");
  const auto& events = disk.events();
  const auto log = job.path + "-wal";
  const auto logged = place_of(events, What::Write, log);
  REQUIRE(logged);
  const auto log_sure = place_of(events, What::Sync, log, *logged);
  REQUIRE(log_sure);
  const auto moved = place_of(events, What::Write, job.path, *log_sure);
  REQUIRE(moved);
  const auto file_sure = place_of(events, What::Sync, job.path, *moved);
  REQUIRE(file_sure);
  const auto log_gone = place_of(events, What::Delete, log);
  REQUIRE(log_gone);
  CHECK(*file_sure < *log_gone);
}

}  // namespace lasting_file_test
