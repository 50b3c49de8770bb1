// Copies of a logbook: verified, never in another file's place, and removed only where nothing is
// lost with them.

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/places.h"
#include "support/trial.h"

namespace backup_test {

using Catch::Matchers::StartsWith;

namespace {

namespace fs = std::filesystem;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")), stick(trial.folder().file("stick")) {
    fs::create_directory(stick);
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 40");
  }
  // A line more, and a copy a minute later.
  nlohmann::json copy(const std::string& options = "") {
    trial.done("out J01/" + std::to_string(++position));
    trial.now += std::chrono::minutes(1);
    return trial.done("backup " + stick + " --json " + options).json();
  }
  [[nodiscard]] std::vector<std::string> on_stick() const {
    std::vector<std::string> names;
    for (const auto& file : fs::directory_iterator(stick)) {
      names.push_back(file.path().filename().string());
    }
    std::ranges::sort(names);
    return names;
  }

  Trial trial;
  std::string path;
  std::string stick;
  int position = 0;
};

}  // namespace

TEST_CASE("a copy holds every line, is verified and stands alone", "[cli]") {
  Job job;
  // Somebody has the logbook open, so that lines stand in its write-ahead log only.
  SQLite::Database reader(job.path, SQLite::OPEN_READONLY);
  SQLite::Transaction looking(reader);
  (void)reader.execAndGet("SELECT count(*) FROM entry").getInt();
  const auto made = job.copy();
  CHECK(made["lines"] == 3);
  const auto file = made["file"].get<std::string>();
  CHECK(job.on_stick() == std::vector<std::string>{fs::path(file).filename().string()});
  CHECK(
      job.trial.done("verify --log " + file + " --against " + made["last_hash"].get<std::string>())
          .code == 0);
  CHECK(job.trial.done("history --log " + file).out == job.trial.done("history").out);
}

TEST_CASE("a copy has the date in its name and takes no other's place", "[cli]") {
  Job job;
  const auto first = job.trial.done("backup " + job.stick);
  const auto again = job.trial.done("backup " + job.stick);
  const auto names = job.on_stick();
  REQUIRE(names.size() == 2);
  CHECK_THAT(names[1], StartsWith("gb1-2026-06-01-"));
  CHECK(names[0] == names[1].substr(0, names[1].find(".bolts")) + "-2.bolts");
  CHECK_THAT(first.told(),
             StartsWith("copied and verified: ") && ContainsSubstring("2 lines, last hash "));
}

TEST_CASE("without a folder the copies lie in one beside the logbook", "[cli]") {
  Job job;
  job.trial.done("backup");
  CHECK(fs::is_directory(job.trial.folder().file("copies")));
  // The logbook is still the only one in its folder.
  job.trial.environment.erase("BOLTWITNESS_LOG");
  CHECK(job.trial.run("history").code == 0);
}

TEST_CASE("so many of the newest copies are kept", "[cli]") {
  Job job;
  std::vector<std::string> files;
  for (int i = 0; i < 4; ++i) files.push_back(job.copy()["file"]);
  const auto made = job.copy("--keep 3");
  CHECK(made["removed"] == nlohmann::json::array({files[0], files[1]}));
  CHECK(job.on_stick().size() == 3);
  CHECK(fs::exists(files[3]));
  CHECK(job.copy("--keep 1")["removed"].size() == 3);
}

TEST_CASE("copies of one minute are told apart by their numbers", "[cli]") {
  Job job;
  std::vector<std::string> made;
  for (int i = 0; i < 12; ++i) {
    made.push_back(job.trial.done("backup " + job.stick + " --json").json()["file"]);
  }
  CHECK(job.trial.done("backup " + job.stick + " --keep 3 --json").json()["removed"] ==
        nlohmann::json(std::vector(made.begin(), made.begin() + 10)));
  // What is free again below them is no name for a newer one.
  const auto next = job.trial.done("backup " + job.stick + " --keep 3 --json").json();
  CHECK(next["removed"] == nlohmann::json::array({made[10]}));
  CHECK_THAT(next["file"].get<std::string>(), Catch::Matchers::EndsWith("-14.bolts"));
}

TEST_CASE("who made a copy while newer ones came takes none of those away", "[cli]") {
  Job job;
  std::vector<std::string> newer;
  for (int i = 0; i < 3; ++i) {
    job.trial.now += std::chrono::minutes(1);
    newer.push_back(job.trial.done("backup " + job.stick + " --json").json()["file"]);
  }
  job.trial.now -= std::chrono::minutes(10);
  const auto made = job.trial.done("backup " + job.stick + " --keep 3 --json").json();
  CHECK(made["removed"].empty());
  CHECK(job.on_stick().size() == 4);
  job.trial.now += std::chrono::minutes(20);
  CHECK(job.trial.done("backup " + job.stick + " --keep 3 --json").json()["removed"] ==
        nlohmann::json::array({made["file"], newer[0]}));
}

TEST_CASE("nothing but copies that the logbook contains is removed", "[cli]") {
  Job job;
  const auto first = job.copy()["file"].get<std::string>();
  // A copy that somebody went on with, another logbook and a file under names of copies.
  job.trial.done("out J01/30 --log " + first);
  const auto other = job.stick + "/gb1-2026-01-01-0800.bolts";
  job.trial.done("start " + other + " --machine GB-2");
  const auto text = job.stick + "/gb1-2026-01-02-0800.bolts";
  std::ofstream(text) << "a note";
  const auto named_otherwise = job.stick + "/gb1-of-monday.bolts";
  fs::copy_file(job.path, named_otherwise);
  const auto made = job.copy("--keep 1");
  CHECK(made["removed"].empty());
  CHECK(made["different"] == nlohmann::json::array({first}));
  for (const auto& file : {first, other, text, named_otherwise}) CHECK(fs::exists(file));
}

TEST_CASE("what does not fit is not copied beside the good ones", "[cli]") {
  Job job;
  job.copy();
  SQLite::Database(job.path, SQLite::OPEN_READWRITE)
      .exec("DROP TRIGGER removal_never_changed; UPDATE removal SET bag = 'x'");
  const auto refused = job.trial.run("backup " + job.stick + " --keep 1");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("is not as boltwitness wrote it"));
  CHECK(job.on_stick().size() == 1);
}

TEST_CASE("a folder that is not there is not made up", "[cli]") {
  Job job;
  const auto refused = job.trial.run("backup " + job.stick + "2");
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(), ContainsSubstring("there is no folder"));
  CHECK_FALSE(fs::exists(job.stick + "2"));
  CHECK(job.trial.run("backup " + job.stick + " --keep 0").code == 2);
  CHECK(job.on_stick().empty());
}

TEST_CASE("a logbook without hashes is copied as it is", "[cli]") {
  Job job;
  const auto old = job.trial.folder().file("old.bolts");
  fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", old);
  const auto made = job.trial.done("backup " + job.stick + " --log " + old);
  CHECK_THAT(made.told(), ContainsSubstring("no hashes yet"));
  REQUIRE(job.on_stick().size() == 1);
  CHECK(job.trial.done("history --log " + job.stick + '/' + job.on_stick()[0]).out ==
        job.trial.done("history --log " + old).out);
}

}  // namespace backup_test
