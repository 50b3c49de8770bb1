// More positions than a logbook may have together, at every door by which they could come in.

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <filesystem>

#include "exchange/logbook_json.h"
#include "logbook/copied_rows.h"
#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/trial.h"

namespace position_total_test {

namespace {

constexpr const char* kTold = "positions together; expected at most 2000000";

// Joints of ten thousand positions each, which is what one may have.
std::string table_of(int joints, const std::string& letter) {
  std::string table = "joint,holds,size,grade,count\n";
  for (int i = 1; i <= joints; ++i) table += fmt::format("{}{},cap,M8,8.8,10000\n", letter, i);
  return table;
}

}  // namespace

TEST_CASE("no door takes more positions than a logbook may have", "[logbook][slow]") {
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  const auto copy = trial.folder().file("copy.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.done("start " + log + " --machine GB-1");
  const auto import = [&](const std::string& table, const std::string& options) {
    trial.typed = table;
    return trial.run("import - " + options);
  };
  CHECK(import(table_of(201, "J"), "--check").code == 2);
  CHECK_THAT(import(table_of(201, "J"), "").said(), ContainsSubstring(kTold));
  REQUIRE(import(table_of(199, "J"), "").code == 0);
  std::filesystem::copy_file(log, copy);

  trial.done("joint K1 --holds cap --size M8 --grade 8.8 --count 10000");
  const auto joint = trial.run("joint K2 --holds cap --size M8 --grade 8.8 --count 1");
  CHECK(joint.code == 2);
  CHECK_THAT(joint.said(), ContainsSubstring(kTold));
  // A joint entered anew does not count twice.
  trial.done("joint K1 --replace 201 --why slipped --count 9999");
  trial.done("joint K2 --holds cap --size M8 --grade 8.8 --count 1");

  REQUIRE(trial.run("joint L1 --holds cap --size M8 --grade 8.8 --count 2 --log " + copy).code ==
          0);
  const auto merged = trial.run("merge " + copy);
  CHECK(merged.code == 2);
  CHECK_THAT(merged.said(), ContainsSubstring(kTold));

  forge(log, "UPDATE joint SET count = 10000");
  std::string text;
  exchange::LogbookJsonWriter writer(
      exchange::LogbookForm::Document, [&](std::string_view piece) { text += piece; },
      [](const std::string&) { return std::string(); });
  {
    SQLite::Database database(log, SQLite::OPEN_READONLY);
    logbook::read_copy(database, writer);
  }
  const auto again = import(text, "--log " + trial.folder().file("again.bolts"));
  CHECK(again.code == 2);
  CHECK_THAT(again.said(), ContainsSubstring(kTold));
  for (const auto* command : {"status", "audit", "report", "compare"}) {
    const auto refused = trial.run(command);
    INFO(command);
    CHECK(refused.code == 3);
    CHECK_THAT(refused.said(), ContainsSubstring(kTold));
  }
}

}  // namespace position_total_test
