// The second half of the found torque through the command itself: offsets, advice, next setting.

#include "support/bench.h"
#include "support/catch.h"

namespace {

// A bench with a logbook, a wrench of 20 to 200 N·m and a joint of M12 8.8 with this specification.
Bench& set_up(Bench& bench, const std::string& specification) {
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file("gb1.bolts");
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  bench.done("joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 16 " +
             (specification.empty() ? "" : "--spec '" + specification + "' --condition oiled"));
  bench.width = 200;
  return bench;
}

}  // namespace

TEST_CASE("found names the line, the mark's part and the interval", "[cli]") {
  Bench bench;
  set_up(bench, "80 N·m");
  const auto text = bench.done("found J06/01 '62s 9°' '70s 5°' '79s 1°' '88p 4°' --wrench TW2").out;
  CHECK_THAT(text, ContainsSubstring("by the line through the offsets 78.82 to 81.79 N·m"));
  CHECK_THAT(text, ContainsSubstring("u from line 0.74 N·m"));
  CHECK_THAT(text, ContainsSubstring("mark 2.3 N·m"));
  const auto none = bench.done("found J06/02 60s 70s 75s 80o --wrench TW2").out;
  CHECK_THAT(none, ContainsSubstring("mark not known"));
  const auto set_aside = bench.done("found J06/03 '60s 12°' '75s 6°' 80o 85p --wrench TW2").out;
  CHECK_THAT(set_aside, ContainsSubstring("offsets not used: the line through the offsets"));
}

TEST_CASE("found says which steps would decide, and which make grade A", "[cli]") {
  Bench bench;
  set_up(bench, "45 N·m");
  const auto text = bench.done("found J06/01 30s 40s 50p --wrench TW2").out;
  CHECK_THAT(text, ContainsSubstring("6 N·m steps between 40 and 50 would decide it"));
  CHECK_THAT(text,
             ContainsSubstring(
                 "3 N·m steps between 40 and 50 would give a bracket fine enough for grade A"));
}

TEST_CASE("found says that no step is fine enough, and which wrench would do", "[cli]") {
  Bench bench;
  set_up(bench, "80 N·m ±5%");
  const auto text = bench.done("found J06/01 70s 75s 80o --wrench TW2").out;
  CHECK_THAT(text, ContainsSubstring("no step is fine enough: wrench (±4%), method alone make"));
  CHECK_THAT(text, ContainsSubstring("a ±2% wrench in 2 N·m steps would decide it"));
}

TEST_CASE("the next setting is proposed and nothing is written", "[cli]") {
  Bench bench;
  set_up(bench, "80 N·m");
  const auto first = bench.done("found J06/03 --wrench TW2 --next --json").json();
  CHECK(first["next_setting"] == 53.0);
  CHECK(first["unit"] == "N·m");
  CHECK_FALSE(first["reason"].get<std::string>().empty());
  CHECK_THAT(bench.done("found J06/03 60s 70s --wrench TW2 --next").out,
             ContainsSubstring("next 74 N·m: "));
  const auto end = bench.done("found J06/03 80s 88s --wrench TW2 --next --json").json();
  CHECK(end["next_setting"].is_null());
  CHECK_THAT(end["reason"].get<std::string>(), ContainsSubstring("the top of the tolerance"));
  CHECK_THAT(bench.done("found J06/03 70s 75s 80o --wrench TW2 --next").out,
             ContainsSubstring("stop: the mark lined up between 75 N·m and 80 N·m"));
  const auto compared = bench.done("compare --json").json();
  for (const auto& row : compared["rows"]) {
    CHECK(row["found"].is_null());
  }
}

TEST_CASE("without a specification the bolt's yield is the ceiling", "[cli]") {
  Bench bench;
  set_up(bench, "");
  const auto end = bench.done("found J06/03 50s 63s --wrench TW2 --next --json").json();
  CHECK(end["next_setting"].is_null());
  CHECK_THAT(end["reason"].get<std::string>(), ContainsSubstring("90 % of the yield"));
}

TEST_CASE("what --next cannot do is refused", "[cli]") {
  Bench bench;
  set_up(bench, "80 N·m");
  CHECK(bench.run("found J06/03 --wrench TW2").code == 2);
  CHECK(bench.run("found J06/03 250s --wrench TW2 --next").code == 2);
  CHECK(bench.run("found J06/03 60s --wrench TW2 --next --replace 3 --why wrong").code == 2);
}
