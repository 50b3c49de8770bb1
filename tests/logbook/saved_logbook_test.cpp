// Logbooks of earlier versions, as they lie on the machines of people. How each was made is told in
// saved/README.md.

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "logbook/schema.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/places.h"
#include "support/trial.h"

namespace saved_logbook_test {

namespace {

namespace fs = std::filesystem;

// A bench with a copy of the saved logbook in its folder.
class Saved {
 public:
  explicit Saved(const std::string& name) : path(trial.folder().file("saved.bolts")) {
    const auto kept = std::string(BOLTWITNESS_SAVED "/") + name;
    if (name.ends_with(".sql")) {
      SQLite::Database made(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
      made.exec(content_of(kept));
    } else {
      fs::copy_file(kept, path);
    }
    trial.environment["BOLTWITNESS_LOG"] = path;
  }

  Trial trial;
  std::string path;
};

// The schema of a file that nobody else has open.
int schema_of(const std::string& path) {
  SQLite::Database file(path, SQLite::OPEN_READONLY);
  return logbook::schema_version(file);
}

std::string saved_of(int version) {
  const auto name = "version_" + std::to_string(version);
  return name +
         (fs::exists(std::string(BOLTWITNESS_SAVED "/") + name + ".bolts") ? ".bolts" : ".sql");
}

// What a command answers of a line that came with a version.
struct Came {
  int version;
  const char* command;
  const char* says;
};
constexpr Came kCame[] = {
    {2, "history", "J13 holds drain flange, 4 bolts: 4 x M8x1.25 x 1 in"},
    {2, "show J13", "drain flange, 4 bolts"},
    {3, "history", "650 mL of gear oil drained"},
    {3, "history", "CL1 off: 6 x hose clips of the oil cooler"},
    {3, "history", "J13/1,3 pass 1, torque to 25"},
    {4, "history", "found off by 6.5%"},
    {5, "history", "settled no-source:J13: use-as-is"},
    {6, "history", "J13/02 out, broke seized, thread damaged: hole"},
    {6, "audit --all", "damaged-thread:J13/02"},
    {8, "history", "16s 18s 20o 22p on TW5, through extension 50mm"},
    {8, "show J13", "25.0 ±3.3"},
    {9, "history", "done about damaged-thread:J13/02, repair: insert set"},
    {10, "show J14", "holds a live load"},
    {11, "history", "J13/4,2 pass 1, torque to 25"},
    {11, "history", "seen: thread bright, seat flat"},
    {12, "show J15", "thread: 12 mm in EN AC-46000"},
    {13, "history", "J15/01 out, broke loose, no mark"},
    {14, "verify", "Signed up to line 22 by KB"},
    {16, "history", "photograph of J13/02: the seat, wiped"},
    {16, "show J13", "J13/02: the seat, wiped"},
};

}  // namespace

TEST_CASE("a logbook of every version answers what is in it, and is brought up to date",
          "[logbook]") {
  const int newest = logbook::schema_steps().back().version;
  for (int version = 1; version <= newest; ++version) {
    const auto name = saved_of(version);
    INFO(name);
    Saved saved(name);
    REQUIRE(schema_of(saved.path) == version);
    const auto told = saved.trial.done("history --whole").out;
    const bool is_derived = name.ends_with(".sql");
    const auto check_answers = [&] {
      for (const auto& came : kCame) {
        if (!is_derived || came.version > version) continue;
        INFO(came.command);
        CHECK_THAT(saved.trial.run(came.command).out, ContainsSubstring(came.says));
      }
      const auto audit = saved.trial.run("audit --json");
      CHECK(audit.code <= 1);
      return audit.json()["deviations"];
    };
    const auto deviations = check_answers();
    CHECK(schema_of(saved.path) == version);
    saved.trial.done("wrench TW9 --range '0.1..0.2 N·m' --graduation '0.01 N·m'");
    CHECK(schema_of(saved.path) == newest);
    const auto copy = saved.path + ".schema-" + std::to_string(version);
    CHECK(fs::exists(copy) == (version < newest));
    if (version < newest) {
      CHECK(schema_of(copy) == version);
      CHECK(saved.trial.done("history --whole --log " + copy).out == told);
    }
    CHECK(saved.trial.done("history --whole").out.starts_with(told));
    CHECK(saved.trial.done("verify").out.starts_with("Nothing was changed"));
    CHECK(check_answers() == deviations);
  }
}

TEST_CASE("a logbook of the first version is read without being changed", "[logbook]") {
  Saved saved("version_1.bolts");
  const auto before = content_of(saved.path);
  const auto history = saved.trial.done("history").out;
  CHECK_THAT(history, ContainsSubstring("J12/02 20s 25s 6° 28s 30o on TW3, backed-off"));
  CHECK_THAT(history, ContainsSubstring("running torque 12 in·lbf"));
  CHECK_THAT(history, ContainsSubstring("STRUCK J12/04 out"));
  const auto row = saved.trial.done("compare --json").json()["rows"][1];
  CHECK(row["position"] == 2);
  // The readings are those of then; the verdict is today's: a test that stopped with the mark on
  // the line, never past it, has an open upper end now, and what is not known counts.
  CHECK(row["found"]["readings"].size() == 4);
  CHECK(row["found"]["readings"][3]["setting"] == 30.0);
  CHECK(row["verdict"] == "undecided");
  saved.trial.run("audit");
  const bool is_unchanged = content_of(saved.path) == before;
  CHECK(is_unchanged);
  CHECK(std::distance(fs::directory_iterator(saved.trial.folder().path()), {}) == 1);
}

TEST_CASE("a logbook of the first version is read where nothing can be written", "[logbook]") {
  Saved saved("version_1.bolts");
  fs::permissions(saved.path, fs::perms::owner_read);
  fs::permissions(saved.trial.folder().path(), fs::perms::owner_read | fs::perms::owner_exec);
  const auto answer = saved.trial.run("history");
  fs::permissions(saved.trial.folder().path(), fs::perms::owner_all);
  CHECK(answer.code == 0);
}

TEST_CASE("writing to a logbook of the first version brings it up to date", "[logbook]") {
  Saved saved("version_1.bolts");
  const auto told_before = saved.trial.done("history").out;
  saved.trial.done("out J12/4 --bag C2");
  CHECK(saved.trial.done("history").out.starts_with(told_before));
  CHECK(saved.trial.done("history --log " + saved.path + ".schema-1").out == told_before);
  SQLite::Database shell(saved.path, SQLite::OPEN_READWRITE);
  CHECK_THROWS_WITH(shell.exec("UPDATE joint SET length_typed = '9in'"),
                    ContainsSubstring("never changed"));
}

TEST_CASE("a logbook that stopped at any step of the schema is read, and brought up to date",
          "[logbook]") {
  std::string told;
  for (int version = 1; version <= logbook::schema_steps().back().version; ++version) {
    INFO("schema " << version);
    Saved saved("version_1.bolts");
    {
      SQLite::Database shell(saved.path, SQLite::OPEN_READWRITE);
      logbook::apply_steps(shell, logbook::steps_up_to(version));
      REQUIRE(logbook::schema_version(shell) == version);
    }
    const auto history = saved.trial.done("history").out;
    if (told.empty()) told = history;
    CHECK(history == told);
    saved.trial.done("out J12/4 --bag C2");
    CHECK(saved.trial.done("history").out.starts_with(told));
    CHECK(saved.trial.done("verify").out.find("Nothing was changed") == 0);
  }
}

TEST_CASE("a logbook of each released version is read and written to", "[logbook]") {
  const auto* file =
      GENERATE("version_17.bolts", "version_18.bolts", "version_19.bolts");  // 1.0.0 to 1.2.0
  INFO(file);
  Saved saved(file);
  CHECK(saved.trial.done("verify").out.find("Nothing was changed") == 0);
  const auto status = saved.trial.done("status --json").json();
  CHECK(status["finished"] == true);
  const auto history = saved.trial.done("history --whole").out;
  CHECK_THAT(history, ContainsSubstring("J08"));
  saved.trial.done("out J08/1 --note 'opened once more'");
  CHECK(saved.trial.done("history --whole").out.starts_with(history));
  CHECK(saved.trial.done("verify").out.find("Nothing was changed") == 0);
}

TEST_CASE("decisions of an earlier version hold as they held then", "[logbook]") {
  // Twenty-six deviations, each settled by the program of schema step 7; those that state a
  // computed uncertainty are left out, since a better computation may open them again.
  Saved saved("version_7.bolts");
  const std::set<std::string> held = {"count-out:J21",
                                      "found-empty:J03/06",
                                      "other-fastener:J05/04",
                                      "other-fastener:J07/02",
                                      "one-time-fastener:J10",
                                      "pass-skipped:J20:pass-1",
                                      "unit-slip:J12/03",
                                      "unit-slip:J21/03",
                                      "unit-slip:J21/04",
                                      "no-source:J21",
                                      "bag-missing:J21",
                                      "break-loose:J21/05",
                                      "wrench-calibration:J14:TW4",
                                      "wrench-calibration:J21:TW4"};
  std::set<std::string> settled;
  const auto audit = saved.trial.run("audit --json").json();
  for (const auto& deviation : audit["deviations"]) {
    for (const auto& part : deviation["parts"]) {
      if (!part["settled"].is_null()) settled.insert(part["id"]);
    }
  }
  for (const auto& id : held) {
    INFO(id);
    CHECK(settled.contains(id));
  }
}

}  // namespace saved_logbook_test
