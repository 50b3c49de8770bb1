// A line that cannot be read and is struck counts nowhere: what it holds stops no other answer, and
// goes along wherever a copy can hold it.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

#include "exchange/logbook_json.h"
#include "logbook/copied_rows.h"
#include "logbook/copyable_values.h"
#include "logbook/restore.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/refusal.h"
#include "support/trial.h"
#include "support/whole_copy.h"

namespace struck_unreadable_test {

namespace {

// A joint of a gearbox of which one fastener was tested (line 7), and a fluid (line 5) that is
// struck (line 8).
struct Gearbox {
  Trial trial;
  std::string log = trial.folder().file("gb1.bolts");

  Gearbox() {
    trial.environment["BOLTWITNESS_LOG"] = log;
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("home");
    trial.done("start " + log + " --machine GB-1");
    trial.done("wrench TW --range '20..200 N·m' --graduation '1 N·m'");
    trial.done(
        "joint J06 --holds cap --size M10 --grade 8.8 --count 4 --spec '80 N·m' --source book");
    trial.done("fluid oil --drained '2 L' --note warm");
    trial.done("out J06/1 --bag B1");
    trial.done("found J06/1 --wrench TW 70s 74o");
    trial.done(fmt::format("strike {} --why 'it was 3 L'", kFluid));
  }

  // Says so of the fluid, with a hash that fits.
  void forge_fluid(const std::string& assignment) const {
    forge(log, fmt::format("UPDATE fluid SET {}", assignment));
  }

  static constexpr int kFluid = 5;
};

}  // namespace

TEST_CASE("a struck line that cannot be read goes along in every copy", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  gearbox.forge_fluid("amount_typed = 'seven'");
  const auto unreadable = trial.done("history --json").json()["unreadable"];
  REQUIRE(unreadable.size() == 1);
  REQUIRE(unreadable[0]["struck"] == true);
  const auto file = [&](const char* name) { return trial.folder().file(name); };
  trial.done("export --to " + file("copy.json"));
  trial.done("export --json-lines --to " + file("copy.jsonl"));
  const auto exported = trial.done("export").out;
  CHECK_THAT(exported, ContainsSubstring("\"amount_typed\":\"seven\""));
  for (const auto* name : {"copy.json", "copy.jsonl"}) {
    CAPTURE(name);
    const auto again = file(name) + ".bolts";
    trial.done("import " + file(name) + " --check --log " + again);
    trial.done("import " + file(name) + " --log " + again);
    CHECK(trial.done("export --log " + again).out == exported);
    trial.done("verify --log " + again);
    CHECK(trial.done("history --json --log " + again).json() ==
          trial.done("history --json").json());
  }
}

TEST_CASE("a struck line that cannot be read stops no other answer", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  gearbox.forge_fluid(GENERATE("amount_typed = 'seven'", "note = cast(x'ff' AS TEXT)"));
  for (const auto* command : {"status",
                              "show J06",
                              "history",
                              "compare",
                              "audit --whole",
                              "search cap",
                              "sequence",
                              "sheet J06 --out -",
                              "labels J06 --out -",
                              "report --out -",
                              "bolt M10 --grade 8.8",
                              "wrench",
                              "fluid",
                              "item",
                              "export joints",
                              "export wrenches",
                              "export findings",
                              "export tightenings",
                              "export photographs",
                              "backup",
                              "verify",
                              "verify --json",
                              "sign",
                              "photo",
                              "recheck"}) {
    const auto answer = trial.run(command);
    INFO(command << ": " << answer.err);
    // The audit has something to say of the job.
    CHECK((answer.code == 0 || (answer.code <= 1 && answer.err.empty())));
  }
}

TEST_CASE("what no copy can hold keeps a struck line out of one, and is told", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto [altered, told] = GENERATE(table<const char*, const char*>(
      {{"UPDATE fluid SET note = cast(x'ff' AS TEXT)", "note holds text with control characters"},
       {"UPDATE fluid SET amount_ml = 9e999", "amount_ml holds a number without end"},
       {"UPDATE entry SET done_at = '2026-13-45T99:99:99.999Z' WHERE line = 5",
        "its stamp holds a time that is none"},
       {"UPDATE entry SET by_whom = char(7) WHERE line = 5",
        "its stamp holds text with control characters"}}));
  CAPTURE(altered);
  forge(gearbox.log, altered);
  trial.done("verify");
  const auto file = trial.folder().file("copy.json");
  for (const auto& command : {std::string("export"), "export --to " + file}) {
    const auto refused = trial.run(command);
    CHECK(refused.code == 3);
    CHECK(refused.out.empty());
    CHECK_THAT(refused.said(), ContainsSubstring("line 5 (fluid): ") && ContainsSubstring(told) &&
                                   ContainsSubstring("\"boltwitness backup\"") &&
                                   ContainsSubstring("boltwitness export findings"));
  }
  CHECK(!std::filesystem::exists(file));
  trial.done("backup");
  trial.done("export findings");
}

TEST_CASE("what no copy can hold is told of the first line, else of a signature", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  trial.environment["XDG_DATA_HOME"] = trial.folder().file("home");
  trial.done("sign");
  const auto found = [&] {
    SQLite::Database database(gearbox.log);
    return logbook::value_no_copy_holds(database);
  };
  CHECK(!found());
  alter(gearbox.log, "UPDATE signature SET by_whom = 'K' || char(7)");
  REQUIRE(found());
  CHECK_THAT(found()->says, ContainsSubstring("the signature with the key ") &&
                                ContainsSubstring("by_whom holds text with control characters"));
  CHECK(!found()->is_struck);
  alter(gearbox.log, "UPDATE joint SET holds = char(7)");
  CHECK_THAT(found()->says, ContainsSubstring("(joint): holds holds text"));
  CHECK(!found()->is_struck);
  alter(gearbox.log,
        "UPDATE line_hash SET given_later = char(7) WHERE entry_id = (SELECT id FROM entry WHERE "
        "line = 2)");
  CHECK_THAT(found()->says, ContainsSubstring("line 2 (wrench): when it got its hash holds text"));
  alter(gearbox.log, R"(
      UPDATE logbook_start SET entry_id = entry_id || char(7);
      UPDATE line_hash SET entry_id = entry_id || char(7) WHERE entry_id = (SELECT min(id) FROM entry);
      UPDATE entry SET id = id || char(7) WHERE line = 1)");
  CHECK_THAT(found()->says, ContainsSubstring("line 1 (start): its stamp holds text"));
}

TEST_CASE("a copy in which a struck line lost its rows is refused", "[logbook]") {
  Gearbox gearbox;
  const auto* altered = GENERATE(
      "DELETE FROM fluid",
      "INSERT INTO removal SELECT (SELECT entry_id FROM fluid), joint_code, broke, marked, "
      "bag, 'twice', NULL, '', '', '', NULL FROM removal");
  forge(gearbox.log, altered);
  record::WholeCopy taker;
  {
    SQLite::Database database(gearbox.log);
    logbook::read_copy(database, taker);
  }
  const auto text = exchange::write_logbook_json(std::move(taker).taken());
  CHECK_THAT(refusal_of([&] {
               logbook::restore_logbook(gearbox.trial.folder().file("new.bolts"),
                                        exchange::LogbookJsonReader(text), [](const auto&) {});
             }),
             ContainsSubstring("/lines/4: its rows are not those of one fluid"));
}

TEST_CASE("the progress of verify counts every line, whatever becomes of it", "[logbook]") {
  Gearbox gearbox;
  const auto* altered = GENERATE("UPDATE fluid SET note = 'cold'",           // struck
                                 "UPDATE fluid SET amount_typed = 'seven'",  // and unreadable
                                 "UPDATE removal SET bag = char(7)",         // unreadable
                                 "DELETE FROM removal",                      // nothing left of it
                                 "INSERT INTO fluid SELECT entry_id, 'oil', 'drained', 1, '1 ml', "
                                 "'' FROM removal");  // in two tables
  CAPTURE(altered);
  forge(gearbox.log, altered);
  std::size_t begun = 0;
  std::size_t steps = 0;
  (void)logbook::verify(gearbox.log, {}, logbook::Waiting::silent(),
                        {[&](std::size_t of) { begun += of; }, [&] { ++steps; }});
  CHECK(begun == 16);  // eight lines, hashed and read
  CHECK(steps == begun);
}

}  // namespace struck_unreadable_test
