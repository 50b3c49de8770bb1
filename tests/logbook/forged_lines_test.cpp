// What another program wrote into a logbook, or changed in it, where no figure shows it.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "logbook/verification.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/trial.h"

namespace forged_lines_test {

using Catch::Matchers::StartsWith;

namespace {

// Joint J06 of gearbox GB-1 (line 3), a fluid (line 5) that is struck in line 7, and a fastener
// that came out (line 6), struck in line 8.
struct Gearbox {
  Trial trial;
  std::string log = trial.folder().file("gb1.bolts");

  Gearbox() {
    trial.environment["BOLTWITNESS_LOG"] = log;
    trial.done("start " + log + " --machine GB-1");
    trial.done("wrench TW --range '20..200 N·m' --graduation '1 N·m'");
    trial.done(
        "joint J06 --holds cap --size M10 --grade 8.8 --count 4 --spec '80 N·m' --source book");
    trial.done("fluid oil --drained '2 L'");
    trial.done("out J06/1 --note greasy");
    trial.done("strike 5 --why 'it was 3 L'");
    trial.done("strike 6 --why 'it was dry'");
  }
};

}  // namespace

TEST_CASE("a struck line that was altered is shown as such wherever it is shown", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  CHECK(trial.done("history --json").json()["lines"][4]["struck"]["as_written"] == true);
  alter(gearbox.log, "UPDATE fluid SET fluid = 'wax'; UPDATE removal SET note = 'oily'");
  const auto altered = ContainsSubstring("STRUCK, AND NOT WHAT WAS WRITTEN: ");
  CHECK_THAT(trial.done("history").told(), altered && ContainsSubstring("2 L of wax drained"));
  CHECK(trial.done("history --json").json()["lines"][4]["struck"]["as_written"] == false);
  CHECK_THAT(trial.done("search wax").told(), altered);
  CHECK_THAT(trial.done("show J06/1").told(), altered && ContainsSubstring("oily"));
  CHECK_THAT(trial.done("report --out -").out, altered);
  // What the phone shows is made of this.
  const auto lines = trial.done("show J06/1 --json").json()["lines"];
  REQUIRE(lines.size() == 3);
  CHECK(lines[2]["struck"]["as_written"] == false);
  CHECK(trial.run("verify").code == 1);
}

TEST_CASE("a size, order, rule or material that no door takes is told with its line at every door",
          "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto* column = GENERATE("order_text = '1,1,9'", "order_text = 'spiral'",
                                "order_text = '1,2'", "passes = 'seventeen'", "size = 'banana'",
                                "size = ''", "into_material = 'cheese'", "seat_material = 'cheese'",
                                "seat_material = 'S235', face_mm = 2", "layout = 'rectangle 3x7'");
  CAPTURE(column);
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  forge(gearbox.log, "UPDATE joint SET " + std::string(column));
  for (const auto* command : {"status", "show J06", "audit", "sequence",
                              "found J06/1 20o --wrench TW", "report", "export", "backup"}) {
    const auto refused = trial.run(command);
    INFO(command);
    CHECK(refused.code == (std::string(command) == "backup" ? 1 : 3));
    CHECK_THAT(refused.said(), ContainsSubstring("line 3"));
  }
  CHECK(trial.run("sign --by AB").code == 1);
  const auto verified = trial.run("verify");
  CHECK(verified.code == 1);
  CHECK_THAT(verified.told(), ContainsSubstring("line 3"));
  trial.done("item CL1 --what pins --count 2 --log " + apart);
  CHECK(trial.run("merge " + apart).code == 3);
  trial.done("strike 3 --why 'not so'");
  CHECK(trial.run("status").err.empty());
}

TEST_CASE("a new line that no door takes does not come in by a merge", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  trial.done("joint J07 --holds guard --size M8 --grade 8.8 --count 4 --log " + apart);
  forge_last(apart, "UPDATE joint SET passes = 'seventeen' WHERE code = 'J07'");
  const auto refused = trial.run("merge " + apart);
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(), ContainsSubstring("passes: \"seventeen\" is no pass rule"));
}

TEST_CASE("what was entered at a place that is none is told by the audit", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  trial.done("joint J07 --holds guard --size M8 --grade 8.8 --count 4 --one-time");
  trial.done("out J07/2");
  trial.done("renew J07/2 --arrived");
  const auto* change =
      GENERATE("UPDATE renewal_position SET position = 9", "UPDATE renewal SET joint_code = 'J99'");
  forge(gearbox.log, change);
  CHECK_THAT(trial.run("audit --all").told(),
             ContainsSubstring("J07 has positions 1 to 4 only") ||
                 ContainsSubstring("J99/02, but that joint is not in the logbook"));
}

TEST_CASE("a line where none can stand shuts the logbook, its hashes right", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const std::string second_start = R"(
      INSERT INTO entry SELECT {0}, '{1}', kind, by_whom, done_at, entered_at, device
        FROM entry WHERE kind = 'start' LIMIT 1;
      INSERT INTO logbook_start SELECT '{1}', 'another', unit, 45, method_percent, '45%', method_typed,
        angle_degrees, angle_typed FROM logbook_start LIMIT 1)";
  const auto sql = GENERATE_COPY(
      // Another first line in the place of the first one, which changes the tolerance.
      "UPDATE entry SET line = -line - 1; UPDATE entry SET line = -line;" +
          fmt::format(fmt::runtime(std::string(second_start)), 1,
                      "00000000-0000-7000-8000-000000000001"),
      fmt::format(fmt::runtime(std::string(second_start)), 9,
                  "7fffffff-ffff-7fff-8fff-000000000001"),
      // Behind this id nothing can be written.
      std::string(
          "UPDATE strike SET entry_id = 'ffffffff-ffff-7fff-bfff-ffffffffffff' WHERE entry_id ="
          " (SELECT id FROM entry WHERE line = 8);"
          "UPDATE entry SET id = 'ffffffff-ffff-7fff-bfff-ffffffffffff' WHERE line = 8"),
      // Strikes of nothing and of what came later: line 5 counts again.
      std::string("UPDATE strike SET struck_id = '00000000-0000-7000-8000-000000000001' WHERE "
                  "entry_id = (SELECT id FROM entry WHERE line = 7)"),
      std::string("UPDATE strike SET struck_id = (SELECT id FROM entry WHERE line = 8) WHERE "
                  "entry_id = (SELECT id FROM entry WHERE line = 7)"));
  CAPTURE(sql);
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  trial.done("item CL1 --what pins --count 2 --log " + apart);
  forge(gearbox.log, sql);
  if (GENERATE(false, true)) enlarge(gearbox.log);
  const auto before = content_of(gearbox.log);
  for (const auto* command :
       {"status", "audit", "history", "show J06", "search oil", "report --out -", "export",
        "compare J06", "fluid", "wrench", "photo", "item CL2 --what pins --count 2",
        "strike 4 --why 'not so'", "out J06/2", "found J06/2 20o --wrench TW"}) {
    const auto refused = trial.run(command);
    INFO(command << ": " << refused.out << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring("go back to a copy"));
  }
  CHECK(trial.run("verify").code == 1);
  CHECK(trial.run("sign --by AB").code == 1);
  CHECK(trial.run("backup").code == 1);
  CHECK(trial.run("merge " + apart).code != 0);
  CHECK(content_of(gearbox.log) == before);
}

TEST_CASE("a first line put behind the others does not come in by a merge", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  trial.done("item CL1 --what pins --count 2 --log " + apart);
  forge_last(apart, R"(
      DELETE FROM item WHERE entry_id = (SELECT id FROM entry WHERE line = 9);
      UPDATE entry SET kind = 'start' WHERE line = 9;
      INSERT INTO logbook_start SELECT (SELECT id FROM entry WHERE line = 9), 'another', unit, 45,
        method_percent, '45%', method_typed, angle_degrees, angle_typed FROM logbook_start LIMIT 1)");
  const auto refused = trial.run("merge " + apart);
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(),
             ContainsSubstring("apart.bolts: its line 9 (start) cannot stand in a logbook: ") &&
                 ContainsSubstring("the start is the first line of a logbook and never") &&
                 ContainsSubstring("nothing was merged"));
}

TEST_CASE("a strike of what cannot be struck does not come in by a merge", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  trial.done("strike 4 --why 'not so' --log " + apart);
  const auto* struck = GENERATE("1", "7");
  CAPTURE(struck);
  forge_last(apart,
             fmt::format("UPDATE strike SET struck_id = (SELECT id FROM entry WHERE line = {}) "
                         "WHERE entry_id = (SELECT id FROM entry WHERE line = 9)",
                         struck));
  const auto before = content_of(gearbox.log);
  const auto refused = trial.run("merge " + apart);
  CHECK(refused.code == 2);
  CHECK_THAT(
      refused.said(),
      ContainsSubstring("apart.bolts: its line 9 (strike) cannot stand in a logbook: a strike or "
                        "the first line cannot be struck; nothing was merged; take a copy "
                        "of it from before that"));
  CHECK(content_of(gearbox.log) == before);
}

TEST_CASE("a value that a CHECK refuses shows through a connection that may not write",
          "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto apart = trial.folder().file("apart.bolts");
  std::filesystem::copy_file(gearbox.log, apart);
  trial.done("item CL1 --what pins --count 2 --log " + apart);
  forge_last(apart, "UPDATE item SET count = -1 WHERE code = 'CL1'");
  const bool is_large = GENERATE(false, true);
  CAPTURE(is_large);
  if (is_large) {
    alter(apart,
          "CREATE TABLE large (of BLOB); INSERT INTO large VALUES (zeroblob(9000000)); "
          "DROP TABLE large");
  }
  for (const int flags : {SQLite::OPEN_READWRITE, SQLite::OPEN_READONLY}) {
    SQLite::Database database(apart, flags);
    const auto found = logbook::verify_open(database, logbook::Look::AtHashes);
    CHECK(found.unsound == std::vector<std::string>{"CHECK constraint failed in item"});
  }
  // Which reads the copy alone.
  const auto refused = trial.run("merge " + apart);
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("apart.bolts"));
}

TEST_CASE("a line whose rows stand in two tables is told once", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  forge(gearbox.log, R"(
      UPDATE entry SET kind = 'item' WHERE line = 4;
      INSERT INTO item_return SELECT id, 'CL1', 1 FROM entry WHERE line = 4)");
  const auto unreadable = trial.run("history --json").json()["unreadable"];
  REQUIRE(unreadable.size() == 1);
  CHECK(unreadable[0]["line"] == 4);
  for (const auto* command : {"status", "show J06", "history"}) {
    const auto said = trial.run(command).said();
    INFO(command << ": " << said);
    CHECK_THAT(said, ContainsSubstring("line 4") && !ContainsSubstring("more"));
  }
}

TEST_CASE("the history lists what stands out of place with what cannot be read", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto lines = trial.done("history --json").json()["lines"];
  forge(gearbox.log, R"(
      INSERT INTO entry SELECT 9, '7fffffff-ffff-7fff-8fff-000000000001', kind, by_whom, done_at,
        entered_at, device FROM entry WHERE line = 1;
      INSERT INTO logbook_start SELECT '7fffffff-ffff-7fff-8fff-000000000001', 'another', unit, 45,
        method_percent, '45%', method_typed, angle_degrees, angle_typed FROM logbook_start)");
  const auto answer = trial.run("history --json");
  CHECK(answer.code == 3);
  const auto json = answer.json();
  CHECK(json["lines"] == lines);
  REQUIRE(json["unreadable"].size() == 1);
  CHECK(json["unreadable"][0]["line"] == 9);
  CHECK_THAT(json["unreadable"][0]["why"].get<std::string>(),
             ContainsSubstring("a first line that is not the first"));
}

TEST_CASE("a strike of what cannot be struck is told by verify and kept from copies", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto* struck = GENERATE("line = 1", "line = 8", "line = 7");
  CAPTURE(struck);
  forge(gearbox.log, "UPDATE strike SET struck_id = (SELECT id FROM entry WHERE " +
                         std::string(struck) +
                         ") WHERE entry_id = (SELECT id FROM entry WHERE line = 7)");
  const auto verified = trial.run("verify --json");
  CHECK(verified.code == 1);
  const auto unreadable = verified.json()["unreadable"];
  REQUIRE(unreadable.size() == 1);
  CHECK(unreadable[0]["line"] == 7);
  CHECK_THAT(trial.run("verify").told(),
             ContainsSubstring("a strike cannot be struck, so go back to a copy"));
  CHECK(trial.run("history").code == 3);
  CHECK(trial.run("search dry").code == 3);
  CHECK(trial.run("export").code == 3);
  CHECK(trial.run("backup " + trial.folder().path().string()).code == 1);
}

TEST_CASE("a signature of a line that is not there is told as that", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  trial.environment["XDG_DATA_HOME"] = trial.folder().file("home");
  trial.done("sign");
  const auto told = ContainsSubstring("the signature of KB belongs to a line that is not there");
  const auto of_no_line = ContainsSubstring("line 0");
  SECTION("it names none") {
    alter(gearbox.log, "UPDATE signature SET line_id = '00000000-0000-7000-8000-000000000000'");
    const auto refused = trial.run("status");
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), told && !of_no_line);
  }
  SECTION("its line was taken out, and the hash of that left") {
    alter(gearbox.log,
          "DELETE FROM strike WHERE entry_id = (SELECT max(id) FROM entry); DELETE FROM entry "
          "WHERE id = (SELECT max(id) FROM entry)");
  }
  const auto verified = trial.run("verify");
  CHECK(verified.code == 1);
  CHECK_THAT(verified.told(), told && !of_no_line);
}

TEST_CASE("an end that no copy had is not taken away by the next line", "[logbook]") {
  Gearbox gearbox;
  auto& trial = gearbox.trial;
  const auto copy = trial.folder().file("copy.bolts");
  std::filesystem::copy_file(gearbox.log, copy);
  trial.done("item A1 --what clips --count 3");
  trial.done("item A2 --what pins --count 2 --log " + copy);
  trial.done("merge " + copy);
  alter(gearbox.log, "INSERT INTO chain_end SELECT id FROM entry WHERE line = 4");
  const auto ends = [&] {
    return SQLite::Database(gearbox.log).execAndGet("SELECT count(*) FROM chain_end").getInt();
  };
  const auto before = ends();
  CHECK(before >= 2);
  CHECK(trial.run("fluid wax --drained '1 L'").code == 3);
  CHECK(ends() == before);
  CHECK(trial.run("verify").code == 1);
}

}  // namespace forged_lines_test
