// The command hold-point, and what it holds up.

#include "record/span_of_time.h"
#include "support/bench.h"
#include "support/catch.h"

namespace {

Bench& set_up(Bench& bench) {
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file("gb1.bolts");
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  bench.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  bench.done("joint J07 --holds lid --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  return bench;
}

int line_count(Bench& bench) {
  return static_cast<int>(bench.done("history --json").json()["lines"].size());
}

}  // namespace

TEST_CASE("a hold point with a wait opens by begin, wait and pass", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point HV --what 'rails dead' --wait 10min");
  auto refused = bench.run("hold-point HV --pass");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("has not been begun") &&
                                 ContainsSubstring("--begin starts its wait of 10 min"));
  bench.done("hold-point HV --begin");
  bench.now += std::chrono::minutes(3);
  const int before = line_count(bench);
  refused = bench.run("hold-point HV --pass");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("6 min 58 s of the wait left"));
  CHECK(line_count(bench) == before);
  bench.now += std::chrono::minutes(7);
  bench.done("hold-point hv --pass --note '0 V at both rails' --by LM");
  const auto json = bench.done("hold-point --json").json();
  const auto& point = json["hold_points"][0];
  CHECK(point["stands"] == "passed");
  CHECK(point["passed_by"] == "LM");
  CHECK(point["how"] == "0 V at both rails");
  CHECK(point["wait_s"] == 600);
  CHECK_THAT(bench.done("hold-point").out, ContainsSubstring("passed by LM, 2026-06-01 08:1"));
  bench.done("hold-point HV --close --note 'power was back'");
  CHECK(bench.done("hold-point --json").json()["hold_points"][0]["stands"] == "not begun");
}

TEST_CASE("nothing comes out behind a hold point that is not passed", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point HV --what 'rails dead' --wait 10min --before J06");
  const auto refused = bench.run("out J06/1");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("HV (rails dead) has not been begun"));
  bench.done("out J07/1");
  bench.done("hold-point HV --begin");
  const auto waiting = bench.run("out J06/1");
  CHECK(waiting.code == 1);
  CHECK_THAT(waiting.said(), ContainsSubstring("9 min 59 s of the wait left"));
  bench.now += std::chrono::minutes(10);
  CHECK(bench.run("out J06/1").code == 1);
  bench.done("hold-point HV --pass");
  bench.done("out J06/1");
  bench.done("hold-point HV --close");
  CHECK(bench.run("out J06/2").code == 1);
  CHECK(bench.run("tighten J06/1").code == 1);
}

TEST_CASE("a hold point is not passed ahead of the clock", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point HV --what 'rails dead' --wait 10min");
  bench.done("hold-point HV --begin");
  const auto refused = bench.run("hold-point HV --pass --at 2026-06-02T08:00Z");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("ahead of this machine's clock"));
}

TEST_CASE("what a hold point cannot do is refused", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point ROPE --what 'load on stands' --before J06 J07");
  for (const auto* command :
       {"hold-point ROPE --begin", "hold-point ROPE --close", "hold-point XY --pass",
        "hold-point ROPE --what again", "hold-point A --what x --before J99", "hold-point XY"}) {
    INFO(command);
    CHECK(bench.run(command).code == 1);
  }
  bench.done("hold-point ROPE --pass");
  CHECK(bench.run("hold-point ROPE --pass").code == 1);
  for (const auto* command :
       {"hold-point A --what x --wait 10", "hold-point --pass", "hold-point A --wait 10min",
        "hold-point ROPE --pass --close", "hold-point ROPE --note x", "hold-point 1A --what x"}) {
    INFO(command);
    CHECK(bench.run(command).code == 2);
  }
}

TEST_CASE("a hold point entered anew has to be passed anew", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point ROPE --what 'load on stands'");
  bench.done("hold-point ROPE --pass");
  bench.done("hold-point ROPE --what 'load on four stands' --replace 7 --why 'four it is'");
  CHECK(bench.run("out J06/1").code == 1);
}

TEST_CASE("on a terminal the wait counts down once a second to its end", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point HV --what 'rails dead' --wait 65s");
  bench.done("hold-point HV --begin");
  bench.terminal = true;
  const auto begun = bench.now;
  const auto answer = bench.done("hold-point HV --no-color").out;
  CHECK(bench.now - begun == std::chrono::seconds(65));
  // The command itself took one second of the bench's clock: 64 are left to count.
  for (int left = 1; left <= 64; ++left) {
    const auto shown = record::write_rounded(record::SpanOfTime{std::chrono::seconds(left)});
    INFO(shown);
    CHECK_THAT(answer, ContainsSubstring("\rhold point HV: " + shown + " of the wait left"));
  }
  CHECK_THAT(answer, ContainsSubstring("the wait is over; once it is proved"));
}

TEST_CASE("on a pipe, as JSON and at a stated time the wait is told in one line", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("hold-point HV --what 'rails dead' --wait 65s");
  bench.done("hold-point HV --begin");
  CHECK_THAT(bench.done("hold-point HV").out, ContainsSubstring("waiting: 1 min 4 s left"));
  bench.terminal = true;
  CHECK(bench.done("hold-point HV --json").json()["hold_points"][0]["left_s"] == 63);
  const auto at = bench.done("hold-point HV --at 2026-06-01T08:00:10Z").out;
  CHECK(at.find('\r') == std::string::npos);
}
