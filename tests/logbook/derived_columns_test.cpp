// Columns of a line that follow from others of it, and say something else: a file that was changed
// with its hashes made anew.

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "exchange/logbook_json.h"
#include "logbook/copied_rows.h"
#include "support/catch.h"
#include "support/content_of.h"
#include "support/forged_logbook.h"
#include "support/places.h"
#include "support/trial.h"

namespace derived_columns_test {

using Catch::Matchers::StartsWith;

TEST_CASE("a figure that contradicts its line is told by every reader", "[logbook]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine GB-1");
  trial.done("wrench TW --range '20..200 N·m' --graduation '1 N·m'");
  trial.done(
      "joint J06 --holds cap --size M10 --grade 8.8 --count 4 --spec '80 N·m ±10%' --source book");
  trial.done("found J06/1 60s 70s 75s 80o --wrench TW --prevailing '2 N·m'");
  trial.done("tighten J06/1 --wrench TW --set 80");
  const auto sound = trial.done("export").out;
  struct Contradiction {
    const char* sql;
    const char* column;
  };
  const auto& [sql, column] = GENERATE(values<Contradiction>(
      {{"UPDATE finding SET adapter_ratio = 2;"
        "UPDATE setting_reading SET applied_nm = 2 * applied_nm",
        "adapter_ratio: 2.0; expected 1"},
       {"UPDATE tightening SET adapter_ratio = 2, applied_nm = 160",
        "adapter_ratio: 2.0; expected 1"},
       {"UPDATE setting_reading SET applied_nm = 50 WHERE pull = 2",
        "applied_nm: 50.0; expected 70"},
       {"UPDATE finding SET prevailing_nm = 20", "prevailing_nm: 20.0; expected 2"},
       {"UPDATE finding SET prevailing_nm = NULL", "prevailing_nm: nothing; expected"},
       {"UPDATE specification SET torque_nm = 40", "torque_nm: 40.0; expected 80"},
       {"UPDATE specification SET torque_nm = NULL", "torque_nm: nothing; expected"},
       {"UPDATE specification SET low_nm = 1", "low_nm: 1.0; expected 72"},
       {"UPDATE specification SET high_nm = -1", "high_nm: -1.0; expected 88"},
       {"UPDATE tightening SET applied_nm = 160", "applied_nm: 160.0; expected 80"},
       {"UPDATE tightening SET applied_nm = NULL", "applied_nm: nothing; expected"},
       {"UPDATE wrench SET scale_low_nm = 2", "scale_low_nm: 2.0; expected 20"},
       {"UPDATE wrench SET scale_high_nm = 1e308", "scale_high_nm: 1.0e+308; expected 200"}}));
  forge(log, sql);
  CAPTURE(sql);
  for (const auto* command : {"status", "compare", "audit", "history", "show J06", "export",
                              "report", "found J06/2 --wrench TW 60s 70s 80o"}) {
    const auto refused = trial.run(command);
    INFO(command << ": " << refused.err);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring(column));
  }

  const auto verified = trial.run("verify");
  CHECK(verified.code == 1);
  const auto json = trial.run("verify --json").json();
  CHECK(json["fits"] == false);
  CHECK(json["misfits"].empty());  // the hashes are right
  REQUIRE(json["unreadable"].size() == 1);
  const auto& unreadable = json["unreadable"][0];
  CHECK_THAT(unreadable["why"].get<std::string>(), ContainsSubstring(column));
  const auto line = unreadable["line"].get<int>();
  CHECK(SQLite::Database(log)
            .execAndGet("SELECT kind FROM entry WHERE line = " + std::to_string(line))
            .getString() == unreadable["kind"].get<std::string>());
  CHECK_THAT(verified.told(),
             StartsWith("This logbook does not fit: line " + std::to_string(line) +
                        " cannot be read (" + unreadable["kind"].get<std::string>() + "): ") &&
                 ContainsSubstring(column) && ContainsSubstring("computed the hashes anew"));
  const auto strike = "strike " + std::to_string(line) + " --why contradiction";
  CHECK_THAT(verified.told(),
             ContainsSubstring("\"boltwitness strike " + std::to_string(line) + " --why TEXT\"") &&
                 ContainsSubstring("or go back to a copy"));

  // Nor is it signed, or kept as a good copy, until it is struck.
  trial.environment["XDG_DATA_HOME"] = trial.folder().path().string();
  CHECK(trial.run("sign --by KB").code == 1);
  const auto not_copied = trial.run("backup " + trial.folder().path().string());
  CHECK(not_copied.code == 1);
  CHECK_THAT(not_copied.said(), ContainsSubstring("line " + std::to_string(line) + " of ") &&
                                    ContainsSubstring(column));
  trial.done(strike);
  CHECK_THAT(trial.done("verify").told(), StartsWith("Nothing was changed"));
  trial.done("backup " + trial.folder().path().string());
  trial.done("sign --by KB");
}

TEST_CASE("verify names a line that cannot be read beside that it was changed", "[logbook]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine GB-1");
  trial.done("wrench TW --range '20..200 N·m' --graduation '1 N·m'");
  trial.done("joint J06 --holds cap --size M10 --grade 8.8 --count 4");
  trial.done("found J06/1 --wrench TW 60s 70s 80o");
  trial.done("tighten J06/2 --wrench TW --set 80");
  trial.done("tighten J06/3 --wrench TW --set 80");
  struct Damage {
    const char* sql;
    std::vector<int> lines;
    const char* why;
  };
  const auto damage = GENERATE(values<Damage>(
      {{"UPDATE wrench SET scale_low_nm = 2", {2}, "scale_low_nm: 2.0; expected 20"},
       {"UPDATE finding SET adapter_ratio = 2; UPDATE setting_reading SET applied_nm = 2 * "
        "applied_nm",
        {4},
        "adapter_ratio: 2.0; expected 1, since no adapter is named"},
       {"UPDATE tightening SET applied_nm = 160", {5, 6}, "applied_nm: 160.0; expected 80"},
       {"UPDATE joint SET holds = char(155) || '2J'", {3}, "UTF-8 text without control characters"},
       {"UPDATE setting_reading SET setting = 9e999", {4}, "setting"},
       {"DELETE FROM setting_reading", {4}, "setting: nothing; expected a number"},
       {"DELETE FROM wrench", {2}, "its content is not there"},
       {"DELETE FROM tightening_position", {5, 6}, "position: nothing; expected 1 to 10000"},
       {"UPDATE entry SET kind = 'fluid' WHERE line = 3", {3}, "with the rows of a joint"},
       {"UPDATE entry SET done_at = 'yesterday' WHERE line = 6", {6}, "done_at"},
       {"UPDATE logbook_start SET tolerance_percent = 0", {1}, "tolerance_percent"},
       {"DELETE FROM logbook_start", {1}, "there"}}));
  CAPTURE(damage.sql);
  const bool has_right_hashes = GENERATE(false, true);
  if (has_right_hashes) {
    forge(log, damage.sql);
  } else {
    alter(log, damage.sql);
  }
  const auto verified = trial.run("verify");
  CHECK(verified.code == 1);
  const auto json = trial.run("verify --json").json();
  std::vector<int> lines;
  for (const auto& line : json["unreadable"]) {
    lines.push_back(line["line"].get<int>());
    CHECK_THAT(line["why"].get<std::string>(), ContainsSubstring(damage.why));
    CHECK_THAT(verified.told(),
               ContainsSubstring("line " + std::to_string(lines.back()) + " cannot be read ("));
  }
  REQUIRE(lines == damage.lines);
  if (!has_right_hashes) {
    for (const auto line : lines) {
      CHECK_THAT(verified.told(), ContainsSubstring("line " + std::to_string(line) + " was ") ||
                                      ContainsSubstring("line " + std::to_string(line) + " has "));
    }
    CHECK_THAT(verified.told(), ContainsSubstring("What to do: write nothing more to this file"));
  }
}

TEST_CASE("verify reads the lines of an earlier version as this one would have them", "[logbook]") {
  Trial trial;
  const auto log = trial.folder().file("old.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  std::filesystem::copy_file(BOLTWITNESS_SAVED "/version_7.bolts", log);
  std::filesystem::permissions(
      log, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  const auto json_of = [&] { return trial.run("verify --json").json(); };
  CHECK(json_of()["unreadable"].empty());
  alter(log,
        "UPDATE wrench SET scale_low_nm = 5 WHERE entry_id = (SELECT min(entry_id) FROM "
        "wrench)");
  const auto before = content_of(log);
  const auto verified = trial.run("verify");
  CHECK(verified.code == 1);
  const bool is_unchanged = content_of(log) == before;
  CHECK(is_unchanged);
  const auto json = json_of();
  REQUIRE(json["unreadable"].size() == 1);
  const auto line = json["unreadable"][0]["line"].get<int>();
  CHECK_THAT(verified.told(), StartsWith("This logbook does not fit: line " + std::to_string(line) +
                                         " cannot be read (wrench)"));
  CHECK(verified.told().find("not looked at") == std::string::npos);
  trial.done("strike " + std::to_string(line) + " --why contradiction");
  CHECK_THAT(trial.done("verify").told(), StartsWith("Nothing was changed"));
}

TEST_CASE("a copy whose figures contradict its lines is not taken", "[logbook]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine GB-1");
  trial.done("wrench TW --range '20..200 N·m' --graduation '1 N·m'");
  trial.done("joint J06 --holds cap --size M10 --grade 8.8 --count 4 --spec '80 N·m'");
  trial.done("found J06/1 --wrench TW 60s 70s 80o");
  const auto* sql = GENERATE("SELECT 1",
                             "UPDATE finding SET adapter_ratio = 2;"
                             "UPDATE setting_reading SET applied_nm = 2 * applied_nm",
                             "UPDATE specification SET torque_nm = 40",
                             "UPDATE wrench SET scale_high_nm = 1e308");
  forge(log, sql);
  CAPTURE(sql);
  // Past the readers of the file, which refuse it.
  std::string text;
  exchange::LogbookJsonWriter writer(
      exchange::LogbookForm::Document, [&](std::string_view piece) { text += piece; },
      [](const std::string&) { return std::string(); });
  {
    SQLite::Database database(log, SQLite::OPEN_READONLY);
    logbook::read_copy(database, writer);
  }
  trial.typed = text;
  const auto again = trial.run("import - --log " + trial.folder().file("again.bolts"));
  INFO(again.err);
  const bool is_sound = std::string_view(sql) == "SELECT 1";
  CHECK(again.code == (is_sound ? 0 : 2));
  CHECK(is_sound == std::filesystem::exists(trial.folder().file("again.bolts")));
  if (!is_sound)
    CHECK_THAT(again.said(), ContainsSubstring("by the rest of its line") ||
                                 ContainsSubstring("no adapter is named"));
}

}  // namespace derived_columns_test
