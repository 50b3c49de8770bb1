// The command renew, and what an arrival changes elsewhere.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace renew_test {

namespace {

// Eight one-time bolts, and four others of which one sheared and one was missing.
Trial& set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J10 --holds gear --size M12x1.25 --length 45mm --grade 10.9 --count 8 --one-time "
      "--spec '80 N·m'");
  trial.done("joint J03 --holds guard --size M8 --grade 8.8 --count 4 --spec '22 N·m'");
  trial.done("out J10/1-8");
  trial.done("out J03/1-2");
  trial.done("out J03/3 --broke sheared");
  trial.done("out J03/4 --broke empty");
  return trial;
}

}  // namespace

TEST_CASE("the list to buy is grouped by size, length and grade", "[cli]") {
  Trial trial;
  set_up(trial);
  const auto text = trial.done("renew").out;
  CHECK_THAT(text, ContainsSubstring("8 x M12x1.25 x 45mm, 10.9\n    J10/1-8: one-time"));
  CHECK_THAT(text,
             ContainsSubstring("2 x M8x1.25, 8.8\n    J03/03: sheared\n    J03/04: found empty"));
  const auto json = trial.done("renew --json").json();
  REQUIRE(json["to_buy"].size() == 2);
  CHECK(json["to_buy"][0]["length_mm"] == 45.0);
  CHECK(json["to_buy"][0]["count"] == 8);
  CHECK(json["to_buy"][1]["length_mm"].is_null());
  CHECK(json["to_buy"][1]["for"][0]["why"][0] == "sheared");
  CHECK(json["arrived"].empty());
  CHECK(trial.done("renew J03 --json").json()["to_buy"].size() == 1);
}

TEST_CASE("the same length in other words is the same fastener to buy", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done(
      "joint J11 --holds hub --size 'm12 x 1.25' --length '4,5 cm' --grade 10.9 --count 2 "
      "--one-time --spec '80 N·m'");
  trial.done("out J11/1-2");
  CHECK(trial.done("renew --json").json()["to_buy"][0]["count"] == 10);
}

TEST_CASE("what has arrived is off the list, out of the audit and on the plan", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("renew J10/1-4 --arrived");
  const auto json = trial.done("renew --json").json();
  CHECK(json["to_buy"][0]["count"] == 4);
  CHECK(json["to_buy"][0]["for"][0]["position"] == 5);
  CHECK(json["arrived"][0]["count"] == 4);
  CHECK_THAT(trial.run("audit").out, ContainsSubstring("4 one-time fasteners came out"));
  CHECK_THAT(trial.done("sequence --json").json()["warnings"].dump(),
             ContainsSubstring("J10: one-time fasteners, fit new ones (8, 4 of them here)"));
  CHECK_THAT(trial.done("renew J10 --arrived").out, ContainsSubstring("J10/5-8 new ones arrived"));
  CHECK(trial.run("audit").out.find("one-time") == std::string::npos);
}

TEST_CASE("everything on the list arrives in one line a joint", "[cli]") {
  Trial trial;
  set_up(trial);
  CHECK(trial.done("renew --arrived --json").json()["lines"].size() == 2);
  CHECK(trial.done("renew --json").json()["to_buy"].empty());
  const auto again = trial.run("renew --arrived");
  CHECK(again.code == 1);
  CHECK_THAT(again.err, ContainsSubstring("nothing is to come"));
}

TEST_CASE("an arrival that cannot be is refused, one nobody asked for is said", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("renew J10/1 --arrived");
  CHECK(trial.run("renew J10/1-2 --arrived").code == 1);
  CHECK(trial.run("renew J99 --arrived").code == 1);
  CHECK(trial.run("renew J99").code == 1);
  CHECK(trial.run("renew J10/9 --arrived").code == 2);
  CHECK(trial.run("renew J10 --replace 9 --why 'x'").code == 2);
  CHECK_THAT(trial.done("renew J03/1 --arrived").err, ContainsSubstring("not on the list"));
  trial.done("renew J10/2 --arrived --replace 11 --why 'it was number 2'");
  CHECK(trial.done("renew --json").json()["to_buy"][0]["for"][0]["position"] == 1);
}

TEST_CASE("an arrival after the old ones went back has a way out, as the audit says it", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p5.bolts");
  trial.done("start " + trial.folder().file("p5.bolts") + " --machine 'pump 5'");
  trial.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
  trial.done(
      "joint J01 --holds cover --size M8x1.25 --grade 8.8 --count 2 --one-time --spec "
      "'25 N·m' --source p1");
  trial.done("out J01/1-2");
  while (trial.run("tighten J01/1-2").code == 0) continue;
  trial.done("renew J01/1-2 --arrived");
  CHECK_THAT(trial.run("audit").out, ContainsSubstring("one-time-fastener:J01:old-in"));
  CHECK(trial.run("sequence --status").code == 1);
  trial.done("out J01/1-2");
  while (trial.run("tighten J01/1-2").code == 0) continue;
  trial.done("stripe J01/1-2 --wiped");
  trial.done("audit");
  CHECK_THAT(trial.done("sequence --status").out, ContainsSubstring("Finished"));
}

TEST_CASE("one-time fasteners that are used once more as decided are not to be fitted new",
          "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p5.bolts");
  trial.done("start " + trial.folder().file("p5.bolts") + " --machine 'pump 5'");
  trial.done(
      "joint J01 --holds cover --size M8x1.25 --grade 8.8 --count 2 --one-time --spec "
      "'25 N·m' --source p1");
  trial.done("out J01/1-2");
  CHECK_THAT(trial.done("sequence").out, ContainsSubstring("fit new ones (2"));
  trial.done("settle one-time-fastener:J01 --as use-as-is --why 'the maker allows it once'");
  const auto plan = trial.done("sequence").out;
  CHECK_THAT(plan, !ContainsSubstring("fit new ones"));
  CHECK_THAT(plan, ContainsSubstring("2 used once more as decided"));
}

}  // namespace renew_test
