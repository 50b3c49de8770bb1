// Whether anything was changed behind the program, as a person is told it.

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace verify_test {

using Catch::Matchers::StartsWith;

namespace {

namespace fs = std::filesystem;

class Job {
 public:
  Job() : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
    trial.done("out J01/1-2 --bag A1");
    trial.done("out J01/3-4 --bag A2");
  }
  void behind_its_back(const std::string& sql) const {
    SQLite::Database(path, SQLite::OPEN_READWRITE).exec(sql);
  }
  nlohmann::json json(const std::string& options = "") {
    return trial.run("verify --json " + options).json();
  }

  Trial trial;
  std::string path;
};

}  // namespace

TEST_CASE("a logbook in order is said to be, with its last hash", "[cli]") {
  Job job;
  const auto answer = job.trial.done("verify");
  CHECK_THAT(answer.told(), StartsWith("Nothing was changed: 4 lines fit their hashes") &&
                                ContainsSubstring("Last line 4, hash "));
  const auto json = job.json();
  CHECK(json["fits"] == true);
  CHECK(json["last"]["line"] == 4);
  CHECK(json["last"]["hash"].get<std::string>().size() == 64);
  CHECK(json["misfits"].empty());
}

TEST_CASE("the first line that was changed is named, and what to do", "[cli]") {
  Job job;
  job.behind_its_back(
      "DROP TRIGGER removal_never_changed; UPDATE removal SET bag = 'B1' WHERE bag = 'A1'");
  const auto answer = job.trial.run("verify");
  CHECK(answer.code == 1);
  CHECK_THAT(answer.told(),
             StartsWith("This logbook does not fit: line 3 was changed") &&
                 ContainsSubstring("the trigger removal_never_changed was taken out") &&
                 ContainsSubstring("What to do: write nothing more to this file"));
  const auto json = job.json();
  CHECK(json["fits"] == false);
  CHECK(json["misfits"][0]["line"] == 3);
  CHECK(json["misfits"][0]["fault"] == "changed");
}

TEST_CASE("a foreign trigger that no other command runs is named", "[cli]") {
  Job job;
  job.behind_its_back("CREATE TRIGGER halve AFTER INSERT ON entry BEGIN SELECT 1; END");
  CHECK(job.trial.run("history").code == 3);
  const auto answer = job.trial.run("verify");
  CHECK(answer.code == 1);
  CHECK_THAT(answer.told(), ContainsSubstring("the trigger halve was put in"));
}

TEST_CASE("a table that is another is not read", "[cli]") {
  Job job;
  job.behind_its_back(
      "DROP TRIGGER renewal_never_changed; ALTER TABLE renewal ADD COLUMN more TEXT");
  const auto answer = job.trial.run("verify");
  CHECK(answer.code == 1);
  CHECK_THAT(answer.told(), ContainsSubstring("the table renewal was altered") &&
                                ContainsSubstring("The lines themselves were not looked at"));
}

TEST_CASE("a log contains the one that showed a hash, until it is cut", "[cli]") {
  Job job;
  const auto whole = job.json()["last"]["hash"].get<std::string>();
  fs::copy_file(job.path, job.path + ".copy");
  job.trial.done("strike 4 --why 'wrong bag'");
  auto shown = whole.substr(0, 16);
  shown.insert(4, " ").insert(9, " ").insert(14, " ");
  const auto contained = job.trial.done("verify --against '" + shown + "'");
  CHECK_THAT(contained.told(), ContainsSubstring("The log that showed " + shown +
                                                 " is contained: it ended with line 4"));
  CHECK(job.json("--against " + whole)["against"]["line"] == 4);
  // The copy of before has nothing of the strike.
  const auto later = job.json()["last"]["hash"].get<std::string>();
  const auto cut = job.trial.run("verify --against " + later + " --log " + job.path + ".copy");
  CHECK(cut.code == 1);
  CHECK_THAT(cut.told(), ContainsSubstring("Nothing was changed: 4 lines") &&
                             ContainsSubstring("is not contained in this one"));
  for (const auto* wrong : {"3f2a", "xyz", "'3f2a 91c0 77de 0b1'"}) {
    const auto refused = job.trial.run(std::string("verify --against ") + wrong);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("is no hash; expected the sixteen digits"));
  }
}

TEST_CASE("an old logbook has no hashes until it is written to", "[cli]") {
  Trial trial;
  const auto path = trial.folder().file("old.bolts");
  fs::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", path);
  fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  trial.environment["BOLTWITNESS_LOG"] = path;
  const auto before = content_of(path);
  const auto none = trial.run("verify");
  CHECK(none.code == 1);
  CHECK_THAT(none.told(), StartsWith("This logbook is of an earlier version (schema 7)") &&
                              ContainsSubstring("hashes them all"));
  CHECK(content_of(path) == before);
  trial.done("fluid oil --drained '1 L'");
  CHECK_THAT(
      trial.done("verify").told(),
      ContainsSubstring("got their hashes when the logbook was brought up to date, before line ") &&
          ContainsSubstring("what was changed until then does not show"));
}

TEST_CASE("nothing is written to a logbook whose schema somebody changed", "[cli]") {
  for (const std::string change :
       {"DROP TRIGGER entry_hashed", "DROP VIEW settled", "DROP INDEX fluid_by_name",
        "ALTER TABLE fluid ADD COLUMN more TEXT",
        "DROP TRIGGER entry_kind_never_removed; DELETE FROM entry_kind; CREATE TRIGGER "
        "entry_kind_never_removed BEFORE DELETE ON entry_kind BEGIN\n"
        "  SELECT RAISE(ABORT, 'the kinds of lines are those of the program');\nEND",
        "CREATE TRIGGER halve AFTER INSERT ON entry BEGIN SELECT 1; END", "CREATE TABLE mine (a)",
        "CREATE INDEX mine ON entry (by_whom)"}) {
    INFO(change);
    Job job;
    job.behind_its_back(change);
    for (const auto* command :
         {"out J01/1 --replace 3 --why x", "strike 4 --why x", "fluid oil --drained '1 L'"}) {
      const auto refused = job.trial.run(command);
      INFO(command << ": " << refused.err);
      CHECK(refused.code == 3);
      CHECK_THAT(refused.said(), ContainsSubstring("go back to a copy"));
    }
    SQLite::Database shell(job.path, SQLite::OPEN_READONLY);
    CHECK(shell.execAndGet("SELECT max(line) FROM entry").getInt() == 4);
    CHECK(job.trial.run("verify").code == 1);
  }
}

TEST_CASE("no byte of a logbook changes an answer and is not found", "[cli][slow]") {
  Trial trial;
  run_sample_job(trial);
  const auto path = trial.environment["BOLTWITNESS_LOG"];
  SQLite::Database(path, SQLite::OPEN_READWRITE).exec("PRAGMA wal_checkpoint(TRUNCATE)");
  const auto original = content_of(path);
  const auto answer = trial.run("history --json").out;
  const auto altered = trial.folder().file("altered.bolts");
  trial.environment["BOLTWITNESS_LOG"] = altered;
  std::mt19937 random(18);
  std::uniform_int_distribution<std::size_t> place(0, original.size() - 1);
  std::uniform_int_distribution<int> bit(0, 7);
  constexpr int kFiles = 200;
  int changed = 0;
  int found = 0;
  for (int i = 0; i < kFiles; ++i) {
    auto bytes = original;
    const auto at = place(random);
    bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ (1U << bit(random)));
    for (const char* tail : {"-wal", "-shm"}) fs::remove(altered + tail);
    std::ofstream(altered, std::ios::binary) << bytes;
    const auto now = trial.run("history --json");
    const auto verified = trial.run("verify");
    INFO("byte " << at << ": " << verified.out << verified.err);
    CHECK((verified.code == 0 || verified.code == 1 || verified.code == 3));
    if (verified.code != 0) ++found;
    if (now.out == answer) continue;
    ++changed;
    CHECK(verified.code != 0);
  }
  CHECK(changed > 0);
  CHECK(found > changed);
}

}  // namespace verify_test
