// Columns of a line that follow from others of it, and say something else: a file that was changed
// with its hashes made anew.

#include <SQLiteCpp/SQLiteCpp.h>

#include <filesystem>
#include <string>

#include "exchange/logbook_json.h"
#include "logbook/copied_rows.h"
#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/trial.h"

namespace derived_columns_test {

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
