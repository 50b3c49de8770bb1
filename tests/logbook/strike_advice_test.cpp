// A strike is told of where, and only where, it makes the logbook usable again.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <map>
#include <string>

#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/trial.h"

namespace strike_advice_test {

namespace {

// Line 3 is a joint, 5 a fluid, 6 and 7 are fasteners that came out, 8 strikes line 7, 9 is an
// item.
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
    trial.done("fluid oil --drained '2 L'");
    trial.done("out J06/1 --bag B1");
    trial.done("out J06/2 --bag B2");
    trial.done("strike 7 --why 'still in'");
    trial.done("item A1 --what clips --count 3");
  }

  // Makes it longer than what is held against its hashes whenever it is opened.
  void make_large() const {
    alter(log,
          "CREATE TABLE large (of BLOB); INSERT INTO large VALUES (zeroblob(9000000)); "
          "DROP TABLE large");
  }
};

enum class Hashes { AsTheyWere, MadeAnew };

struct Case {
  const char* altered;
  Hashes hashes;
  bool is_signed;
  int line;                 // that is told of
  const char* before = "";  // altered before it, with the hashes made anew
};

}  // namespace

TEST_CASE("a strike is told of where it makes the logbook usable again, and nowhere else",
          "[logbook][slow]") {
  constexpr const char* kOtherHash =
      "UPDATE line_hash SET hash = printf('%064d', 3) WHERE entry_id = (SELECT entry_id FROM "
      "fluid)";
  constexpr const char* kStrikeOfNothing =
      "UPDATE strike SET struck_id = '00000000-0000-7000-8000-000000000001'";
  constexpr const char* kSecondStart = R"(
      INSERT INTO entry SELECT 10, '7fffffff-ffff-7fff-8fff-000000000001', kind, by_whom, done_at,
        entered_at, device FROM entry WHERE line = 1;
      INSERT INTO logbook_start SELECT '7fffffff-ffff-7fff-8fff-000000000001', 'another', unit, 45,
        method_percent, '45%', method_typed, angle_degrees, angle_typed FROM logbook_start)";
  const auto each = GENERATE_COPY(values<Case>({
      {"UPDATE removal SET note = 'dry'", Hashes::AsTheyWere, false, 6},
      {"UPDATE fluid SET note = 'dry'", Hashes::AsTheyWere, false, 5},
      {"UPDATE fluid SET note = 'dry'", Hashes::AsTheyWere, true, 5},
      {"UPDATE fluid SET note = 'dry'", Hashes::MadeAnew, true, 5},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::AsTheyWere, false, 5},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::AsTheyWere, true, 5},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::MadeAnew, false, 5},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::MadeAnew, true, 5},
      {"UPDATE fluid SET amount_typed = 'seven'; UPDATE logbook_start SET machine = ''",
       Hashes::MadeAnew, false, 5},
      {"UPDATE fluid SET amount_ml = -1", Hashes::AsTheyWere, false, 5},
      {"UPDATE fluid SET amount_ml = -1", Hashes::MadeAnew, false, 5},
      {"UPDATE removal SET broke = 'burnt'", Hashes::MadeAnew, false, 6},
      {"DELETE FROM fluid", Hashes::AsTheyWere, false, 5},
      {"DELETE FROM fluid", Hashes::MadeAnew, false, 5},
      {"UPDATE strike SET reason = 'so'", Hashes::AsTheyWere, false, 8},
      {"UPDATE item SET what = 'x'; UPDATE strike SET reason = 'so'", Hashes::AsTheyWere, false, 9},
      {"DELETE FROM line_hash WHERE entry_id = (SELECT entry_id FROM fluid)", Hashes::AsTheyWere,
       false, 5},
      {"DELETE FROM line_hash WHERE entry_id = (SELECT max(id) FROM entry)", Hashes::AsTheyWere,
       false, 9},
      {"UPDATE line_hash SET hash = '' WHERE entry_id = (SELECT max(id) FROM entry)",
       Hashes::AsTheyWere, false, 9},
      {kOtherHash, Hashes::AsTheyWere, false, 5},
      {"UPDATE line_hash SET hash = printf('%064d', 3) WHERE entry_id = (SELECT max(id) FROM "
       "entry)",
       Hashes::AsTheyWere, false, 9},
      {"UPDATE signature SET signed_at = '2026-01-01T00:00:00.000Z'; UPDATE fluid SET "
       "amount_typed = 'seven'",
       Hashes::AsTheyWere, true, 5},
      {"UPDATE item SET what = 'x'", Hashes::AsTheyWere, false, 9, kStrikeOfNothing},
      {"UPDATE item SET what = 'x'", Hashes::AsTheyWere, false, 9, kSecondStart},
      {"UPDATE item SET what = 'x'", Hashes::AsTheyWere, false, 9,
       "UPDATE logbook_start SET machine = ''"},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::MadeAnew, false, 5, kStrikeOfNothing},
      {"UPDATE fluid SET amount_typed = 'seven'", Hashes::MadeAnew, false, 5, kSecondStart},
  }));
  const bool is_large = GENERATE(false, true);
  CAPTURE(each.before, each.altered, each.hashes == Hashes::MadeAnew, each.is_signed, is_large);
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  if (is_large) gearbox.make_large();
  if (each.is_signed) trial.done("sign");
  if (*each.before != '\0') forge(gearbox.log, each.before);
  (each.hashes == Hashes::MadeAnew ? forge : alter)(gearbox.log, each.altered);
  std::map<std::string, std::string> answers;
  for (const auto* command : {"status", "history", "show J06", "verify", "backup", "export"}) {
    const auto answer = trial.run(command);
    answers.emplace(command, answer.told() + answer.said());
  }
  const auto struck = trial.run(fmt::format("strike {} --why 'not so'", each.line));
  const bool helps = struck.code == 0 && trial.run("status").code <= 1 &&
                     trial.run("history").code == 0 && trial.run("out J06/3").code == 0 &&
                     trial.run("status").code <= 1;
  const auto advice = fmt::format("strike {} --why", each.line);
  for (const auto& [command, answer] : answers) {
    INFO(command << ": " << answer);
    const bool is_told = answer.find(advice) != std::string::npos;
    CHECK((helps || !is_told));
    // These read the whole; verify and backup tell nobody to write to what was altered.
    if (command == "status" || command == "history") CHECK(is_told == helps);
  }
}

TEST_CASE("what reads a few lines of a large logbook leaves to status whether a strike is enough",
          "[logbook]") {
  Gearbox gearbox;
  gearbox.make_large();
  alter(gearbox.log, "UPDATE removal SET note = 'dry'");
  const auto refused = gearbox.trial.run("out J06/3");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(),
             ContainsSubstring("line 6 is not what was written") &&
                 ContainsSubstring("\"boltwitness status\" tells whether striking it is enough") &&
                 !ContainsSubstring("boltwitness strike"));
  CHECK_THAT(gearbox.trial.run("status").said(),
             ContainsSubstring("\"boltwitness strike 6 --why TEXT\""));
}

TEST_CASE("an export that a struck line keeps from being made does not say to strike it",
          "[logbook]") {
  Gearbox gearbox;
  alter(gearbox.log, "UPDATE removal SET note = 'dry' WHERE bag = 'B2'");
  const auto refused = gearbox.trial.run("export");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("line 7 is struck, and not what was written") &&
                                 ContainsSubstring("boltwitness export findings") &&
                                 !ContainsSubstring("boltwitness strike"));
  gearbox.trial.done("export findings");
}

}  // namespace strike_advice_test
