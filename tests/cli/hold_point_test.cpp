// The command hold-point, and what it holds up.

#include <nlohmann/json.hpp>

#include "record/span_of_time.h"
#include "support/catch.h"
#include "support/trial.h"

namespace hold_point_test {

namespace {

Trial& set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  trial.done("joint J07 --holds lid --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  return trial;
}

int line_count(Trial& trial) {
  return static_cast<int>(trial.done("history --json").json()["lines"].size());
}

}  // namespace

TEST_CASE("a hold point with a wait opens by begin, wait and pass", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point HV --what 'rails dead' --wait 10min");
  auto refused = trial.run("hold-point HV --pass");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("has not been begun") &&
                                 ContainsSubstring("--begin starts its wait of 10 min"));
  trial.done("hold-point HV --begin");
  trial.now += std::chrono::minutes(3);
  const int before = line_count(trial);
  refused = trial.run("hold-point HV --pass");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("6 min 58 s of the wait left"));
  CHECK(line_count(trial) == before);
  trial.now += std::chrono::minutes(7);
  trial.done("hold-point hv --pass --note '0 V at both rails' --by LM");
  const auto json = trial.done("hold-point --json").json();
  const auto& point = json["hold_points"][0];
  CHECK(point["stands"] == "passed");
  CHECK(point["passed_by"] == "LM");
  CHECK(point["how"] == "0 V at both rails");
  CHECK(point["wait_s"] == 600);
  CHECK_THAT(trial.done("hold-point").out, ContainsSubstring("passed by LM, 2026-06-01 08:1"));
  trial.done("hold-point HV --close --note 'power was back'");
  CHECK(trial.done("hold-point --json").json()["hold_points"][0]["stands"] == "not begun");
}

TEST_CASE("nothing comes out behind a hold point that is not passed", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point HV --what 'rails dead' --wait 10min --before J06");
  const auto refused = trial.run("out J06/1");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("HV (rails dead) has not been begun"));
  trial.done("out J07/1");
  trial.done("hold-point HV --begin");
  const auto waiting = trial.run("out J06/1");
  CHECK(waiting.code == 1);
  CHECK_THAT(waiting.said(), ContainsSubstring("9 min 59 s of the wait left"));
  trial.now += std::chrono::minutes(10);
  CHECK(trial.run("out J06/1").code == 1);
  trial.done("hold-point HV --pass");
  trial.done("out J06/1");
  trial.done("hold-point HV --close");
  CHECK(trial.run("out J06/2").code == 1);
  CHECK(trial.run("tighten J06/1").code == 1);
}

TEST_CASE("a hold point is not passed ahead of the clock", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point HV --what 'rails dead' --wait 10min");
  trial.done("hold-point HV --begin");
  const auto refused = trial.run("hold-point HV --pass --at 2026-06-02T08:00Z");
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(), ContainsSubstring("ahead of this machine's clock"));
}

TEST_CASE("what a hold point cannot do is refused", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point ROPE --what 'load on stands' --before J06 J07");
  for (const auto* command :
       {"hold-point ROPE --begin", "hold-point ROPE --close", "hold-point XY --pass",
        "hold-point ROPE --what again", "hold-point A --what x --before J99", "hold-point XY"}) {
    INFO(command);
    CHECK(trial.run(command).code == 1);
  }
  trial.done("hold-point ROPE --pass");
  CHECK(trial.run("hold-point ROPE --pass").code == 1);
  for (const auto* command :
       {"hold-point A --what x --wait 10", "hold-point --pass", "hold-point A --wait 10min",
        "hold-point ROPE --pass --close", "hold-point ROPE --note x", "hold-point 1A --what x"}) {
    INFO(command);
    CHECK(trial.run(command).code == 2);
  }
}

TEST_CASE("a hold point entered anew has to be passed anew", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point ROPE --what 'load on stands'");
  trial.done("hold-point ROPE --pass");
  trial.done("hold-point ROPE --what 'load on four stands' --replace 7 --why 'four it is'");
  CHECK(trial.run("out J06/1").code == 1);
}

TEST_CASE("on a terminal the wait counts down once a second to its end", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point HV --what 'rails dead' --wait 65s");
  trial.done("hold-point HV --begin");
  trial.terminal = true;
  const auto begun = trial.now;
  const auto answer = trial.done("hold-point HV --no-color").out;
  CHECK(trial.now - begun == std::chrono::seconds(65));
  // The command itself took one second of the bench's clock: 64 are left to count.
  for (int left = 1; left <= 64; ++left) {
    const auto shown = record::write_rounded(record::SpanOfTime{std::chrono::seconds(left)});
    INFO(shown);
    CHECK_THAT(answer, ContainsSubstring("\r\x1b[Khold point HV: " + shown + " of the wait left"));
  }
  CHECK_THAT(answer, ContainsSubstring("the wait is over; once it is proved"));
}

TEST_CASE("on a pipe, as JSON and at a stated time the wait is told in one line", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point HV --what 'rails dead' --wait 65s");
  trial.done("hold-point HV --begin");
  CHECK_THAT(trial.done("hold-point HV").out, ContainsSubstring("waiting: 1 min 4 s left"));
  trial.terminal = true;
  CHECK(trial.done("hold-point HV --json").json()["hold_points"][0]["left_s"] == 63);
  const auto at = trial.done("hold-point HV --at 2026-06-01T08:00:10Z").out;
  CHECK(at.find('\r') == std::string::npos);
}

}  // namespace hold_point_test
