// A logbook that holds a line which cannot be read: an earlier version wrote it, or somebody else.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"
#include "support/zone.h"

namespace unreadable_line_test {

namespace {

// A logbook whose third line says that a joint is due for a re-check after more running hours than
// are read; earlier versions took that.
class WithUnreadable {
 public:
  WithUnreadable() : path(trial.folder().file("gb1.bolts")) {
    trial.done("start " + path + " --machine GB-1");
    trial.done("joint J01 --holds cap --size M8 --grade 8.8 --count 4");
    SQLite::Database shell(path, SQLite::OPEN_READWRITE);
    shell.exec(R"(
        INSERT INTO line_hash
          VALUES ('7fffffff-ffff-7fff-8fff-000000000003', '', '', '', '');
        INSERT INTO entry
          SELECT 3, '7fffffff-ffff-7fff-8fff-00000000000' || 3, kind, by_whom, done_at, entered_at,
                 device FROM entry WHERE line = 2;
        INSERT INTO joint (entry_id, code, holds, size, grade, count, layout, one_time, critical)
          SELECT '7fffffff-ffff-7fff-8fff-000000000003', 'J02', holds, size, grade, count, layout,
                 one_time, critical FROM joint;
        INSERT INTO joint_recheck
          VALUES ('7fffffff-ffff-7fff-8fff-000000000003', '100000000000000000 running h');
        UPDATE line_hash SET hash = printf('%064d', 3) WHERE hash = '';)");
    trial.environment["BOLTWITNESS_LOG"] = path;
  }
  Trial trial;
  std::string path;
};

}  // namespace

TEST_CASE("a line that cannot be read is shown with its number, and struck", "[logbook]") {
  WithUnreadable with;
  const auto history = with.trial.run("history");
  CHECK(history.code == 3);
  CHECK_THAT(history.out, ContainsSubstring("   2  ") && ContainsSubstring("J01 holds cap"));
  CHECK_THAT(history.out, ContainsSubstring("   3  cannot be read (joint): ") &&
                              ContainsSubstring("100000000000000000"));
  CHECK_THAT(history.said(), ContainsSubstring("\"boltwitness strike 3 --why TEXT\""));
  const auto json = with.trial.run("history --json").json();
  CHECK(json["lines"].size() == 2);
  CHECK(json["unreadable"][0]["line"] == 3);
  CHECK(json["unreadable"][0]["struck"] == false);

  for (const auto* command : {"compare", "audit", "sequence", "show J01", "search cap", "report"}) {
    const auto refused = with.trial.run(command);
    INFO(command << ": " << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("line 3 (joint) cannot be read") &&
                                   ContainsSubstring("\"boltwitness strike 3 --why TEXT\""));
  }

  with.trial.done("strike 3 --why 'slipped keys'");
  const auto after = with.trial.done("history");
  CHECK_THAT(after.out, ContainsSubstring("   3  STRUCK cannot be read"));
  for (const auto* command : {"compare", "audit", "sequence", "show J01", "search cap"}) {
    const auto answer = with.trial.run(command);
    INFO(command << ": " << answer.err);
    CHECK(answer.code <= 1);
  }
  CHECK(with.trial.done("history --json").json()["unreadable"][0]["struck"] == true);
}

TEST_CASE("a first line that cannot be read cannot be struck, and is told", "[logbook]") {
  WithUnreadable with;
  {
    SQLite::Database shell(with.path, SQLite::OPEN_READWRITE);
    const auto kept = shell
                          .execAndGet(
                              "SELECT sql FROM sqlite_schema "
                              "WHERE name = 'logbook_start_never_changed'")
                          .getString();
    shell.exec(
        "DROP TRIGGER logbook_start_never_changed; PRAGMA ignore_check_constraints = ON;"
        "UPDATE logbook_start SET tolerance_percent = 0");
    shell.exec(kept);
  }
  const auto refused = with.trial.run("show J01");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("CHECK constraint failed in logbook_start") &&
                                 ContainsSubstring("go back to a copy"));
  CHECK(with.trial.run("strike 1 --why x").code != 0);
}

TEST_CASE("what somebody else put into the schema is told of and never run", "[logbook]") {
  WithUnreadable with;
  const auto plant = [&](const char* sql) {
    SQLite::Database shell(with.path, SQLite::OPEN_READWRITE);
    shell.exec(sql);
  };
  const auto [sql, name] = GENERATE(table<const char*, const char*>(
      {{"CREATE TRIGGER note AFTER INSERT ON entry BEGIN SELECT 1; END", "trigger note"},
       {"CREATE VIEW mine AS SELECT 1", "view mine"},
       {"CREATE TABLE my_notes (note TEXT)", "table my_notes"},
       {"CREATE INDEX my_index ON entry (by_whom)", "index my_index"},
       {"DROP VIEW current_entry; CREATE VIEW current_entry AS SELECT * FROM entry",
        "view current_entry"}}));
  plant(sql);
  for (const auto* command : {"history", "strike 3 --why 'slipped keys'",
                              "wrench TW --range "
                              "'1..2 N·m' "
                              "--graduation '0.1 N·m'"}) {
    const auto refused = with.trial.run(command);
    INFO(command);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring(name));
  }
}

TEST_CASE("no command makes the logbook unreadable", "[logbook]") {
  const Zone zone("CET-1CEST,M3.5.0,M10.5.0/3");
  Trial trial;
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  SECTION("the first hour of the first day, in a zone ahead of UTC") {
    trial.done("wrench TW --range '1..2 N·m' --graduation '0.1 N·m' --at 1900-01-01");
    CHECK_THAT(trial.done("history").out, ContainsSubstring("1900-01-01 00:00"));
  }
  SECTION("the last hour of the last day, by a clock that shows it") {
    trial.now = record::read_moment("2999-12-31T23:00:00Z");
    trial.done("wrench TW --range '1..2 N·m' --graduation '0.1 N·m' --at 2999-12-31T23:59");
    trial.done("history");
  }
  SECTION("a day before, and a calibration of then") {
    CHECK(trial.run("wrench TW --range '1..2 N·m' --graduation '0.1 N·m' --at 1899-12-31").code ==
          2);
    CHECK(trial.run("wrench TW --range '1..2 N·m' --graduation '0.1 N·m' --calibrated 1899-12-31")
              .code == 2);
  }
  SECTION("a counter beyond every counter") {
    const auto refused = trial.run(
        "joint J1 --holds lid --size M8 --grade 8.8 --count 2 "
        "--recheck '99999999999999999 running h'");
    CHECK(refused.code == 2);
    CHECK_THAT(refused.err, ContainsSubstring("more than can be kept exactly"));
  }
  CHECK(trial.run("history").code == 0);
  CHECK(trial.run("audit").code == 0);
}

TEST_CASE("in a small logbook a line that does not fit is told whatever joint is asked about",
          "[logbook]") {
  WithUnreadable with;
  for (const auto* command :
       {"compare", "compare J02", "compare J01", "sheet J01", "labels J01", "out J01/1 --bag B1",
        "stripe J01/1 --wiped", "fluid", "item", "hold-point HV --what 'store discharged'"}) {
    INFO(command);
    const auto refused = with.trial.run(command);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("line 3"));
  }
  with.trial.done("strike 3 --why 'slipped keys'");
  with.trial.done("out J01/1 --bag B1");
  // Refused for what J01 says: nothing is tightened yet.
  CHECK(with.trial.run("stripe J01/1 --wiped").code == 1);
}

}  // namespace unreadable_line_test
