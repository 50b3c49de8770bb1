// The order of reassembly on the terminal, on paper and as JSON: the same things in the same words.

#include <cmath>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/html_check.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace sequence_command_test {

namespace {

// The sample job with its order asked for and two of the new bolts still to come.
void plan_sample_job(Trial& trial) {
  run_sample_job(trial, "2025-05-21T08:00");
  trial.width = 400;
}

}  // namespace

TEST_CASE("what has to be so before a joint is the same on terminal, page and JSON", "[cli]") {
  Trial trial;
  plan_sample_job(trial);
  const auto text = trial.done("sequence").told();
  const auto page = text_of_page(trial.done("sequence --html").out);
  const auto json = trial.done("sequence --json").json();
  std::size_t said = 0;
  const auto check = [&](const nlohmann::json& conditions) {
    for (const auto& condition : conditions) {
      const auto says = condition["says"].get<std::string>();
      INFO(says);
      CHECK_THAT(text, ContainsSubstring((condition["met"].get<bool>() ? "[x] " : "[ ] ") + says));
      CHECK_THAT(page, ContainsSubstring(says));
      ++said;
    }
  };
  for (const auto& joint : json["joints"]) check(joint["before"]);
  check(json["goes_back"]);
  CHECK(said >= 8);
}

TEST_CASE("a missing bolt and a missing item stand before their joint on the terminal", "[cli]") {
  Trial trial;
  plan_sample_job(trial);
  CHECK_THAT(trial.done("sequence J03").out,
             ContainsSubstring("[ ] New fasteners have yet to come: at 6"));
  CHECK_THAT(trial.done("sequence J12").out,
             ContainsSubstring("[ ] Back before it is closed: CL1, hose clips of the oil cooler: "
                               "6 off, 0 back, 6 missing"));
  CHECK(trial.done("sequence J13").out.find("before it:") == std::string::npos);
  trial.done("renew J03/6 --arrived");
  trial.done("item CL1 --back 6");
  CHECK_THAT(trial.done("sequence J03").out, ContainsSubstring("[x] New fasteners are here: at 6"));
  CHECK_THAT(trial.done("sequence J12").out,
             ContainsSubstring("[x] Back before it is closed: CL1"));
}

TEST_CASE("a pass says which value was asked for, what is allowed and where", "[cli]") {
  Trial trial;
  plan_sample_job(trial);
  const auto text = trial.done("sequence").told();
  const auto page = text_of_page(trial.done("sequence --html").out);
  CHECK_THAT(text, ContainsSubstring("pass 1 of 3: TW2 at 34 N·m (34.3 N·m asked), 70 %"));
  CHECK_THAT(page, ContainsSubstring("Pass 1 of 3: 34.3 N·m asked, 70 %"));
  for (const auto& shown : {text, page}) {
    CHECK_THAT(shown, ContainsSubstring("turn 60° further, 55° to 65° allowed"));
    CHECK_THAT(shown, ContainsSubstring("ass 2 of 3 at positions 2,7,10,15: "));
  }
  // Where the setting is what was asked for, it is said once.
  CHECK_THAT(text, ContainsSubstring("pass 2 of 3: TW2 at 49 N·m, full value"));
  CHECK_THAT(page, ContainsSubstring("Pass 2 of 3: 49 N·m, full value"));
}

TEST_CASE("the sequence explains what neighbours take and a check round brings back", "[cli]") {
  Trial trial;
  plan_sample_job(trial);
  const auto json = trial.done("sequence J06 --explain --json").json();
  REQUIRE(json["joints"].size() == 2);  // a decision gives some of its bolts passes of their own
  for (const auto& joint : json["joints"]) {
    // Source: up to 35 % to two later neighbours (a reference page on tightening sequences, seen).
    CHECK_THAT(joint["lost"].get<double>(), WithinAbs(0.35 * joint["later_neighbours"].get<int>() /
                                                          2.0 * joint["raised"].get<double>(),
                                                      1e-9));
    if (!joint["check_round"].get<bool>()) continue;
    CHECK(joint["left_after_check"].get<double>() <= 0.35 * joint["lost"].get<double>() + 1e-9);
  }
  const auto text = trial.done("sequence J06 --explain").out;
  CHECK(text.starts_with("J06"));
  CHECK_THAT(text, ContainsSubstring("bed in by 2 to 10 %"));
  CHECK(trial.run("sequence --explain --html").code == 2);
}

TEST_CASE("the sequence explains how evenly its order loads the joint", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.environment["BOLTWITNESS_LOG"] + " --machine GB-1");
  trial.done(
      "joint J01 --holds cover --size M12 --grade 8.8 --count 4 --layout circle "
      "--spec '80 N·m' --source 'Manual, p. 4'");
  // By hand: crosswise the levers of a square add up to 1, 0, 1, 0 of 4; counted round to 1, √2.
  const auto joint = trial.done("sequence --explain --json").json()["joints"][0];
  CHECK_THAT(joint["off_middle"].get<double>(), WithinAbs(0.25, 1e-9));
  CHECK_THAT(joint["off_middle_as_counted"].get<double>(), WithinAbs(std::sqrt(2.0) / 4.0, 1e-9));
  trial.width = 400;
  CHECK_THAT(trial.done("sequence --explain").out,
             ContainsSubstring("off the middle by 25 % at most, in counting order by 35 %"));
}

}  // namespace sequence_command_test
