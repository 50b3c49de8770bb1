#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace show_test {

namespace {

// A joint of four: two tested, one of them low, one found empty, one pass done at position 1.
void fill(Trial& trial) {
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J06 --holds cap --size M12 --grade 8.8 --count 4 --layout 'rectangle 2x2' --spec "
      "'80 N·m' --source 'Manual p. 1' --critical");
  trial.done("found J06/1 60s 75s 80o 84p --wrench TW2");
  trial.done("found J06/2 47s 49s 50o 51p --wrench TW2");
  trial.done("out J06/1-3 --bag D1 --by LM");
  trial.done("out J06/4 --broke empty");
  trial.done("tighten J06/1");
}

}  // namespace

TEST_CASE("show has the whole joint on one screen", "[cli]") {
  Trial trial;
  fill(trial);
  const auto page = trial.done("show j06").out;
  CHECK_THAT(page, ContainsSubstring("J06  cap; 4 x M12x1.75, 8.8, critical"));
  CHECK_THAT(page, ContainsSubstring("specified 80 N·m") && ContainsSubstring("Manual p. 1"));
  CHECK_THAT(page,
             ContainsSubstring("    01  02!\n\n    03  04!\n") && ContainsSubstring("! open hold"));
  CHECK_THAT(page, ContainsSubstring("proof 48.87 kN at 580 MPa, yield 53.93 kN"));
  CHECK_THAT(page, ContainsSubstring("|-") && ContainsSubstring("[") && ContainsSubstring("low A"));
  CHECK_THAT(page, ContainsSubstring("not tested: 3-4"));
  CHECK_THAT(page,
             ContainsSubstring("found-low:J06/02") && ContainsSubstring("found-empty:J06/04"));
  CHECK_THAT(page, ContainsSubstring("pass 1, 56 N·m: 1 of 4 done") &&
                       ContainsSubstring("pass 3, check at 80 N·m: 0 of 4 done") &&
                       ContainsSubstring("final stripe: 0 of 4") &&
                       ContainsSubstring("second person: 0 of 4"));
}

TEST_CASE("a decision shows where the deviation stands, and its mark goes", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("settle found-low:J06/2 --as use-as-is --why 'seat is clean' --with LM");
  const auto page = trial.done("show J06").out;
  CHECK_THAT(page, ContainsSubstring("    01  02\n") &&
                       ContainsSubstring("found-low:J06/02  SETTLED") &&
                       ContainsSubstring("seat is clean"));
  CHECK_THAT(trial.done("show J06/2").out, ContainsSubstring("SETTLED"));
}

TEST_CASE("a decision that asks for work shows until that is done", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("settle found-low:J06/2 --as re-torque --why 'seat is clean' --with LM");
  const auto page = trial.done("show J06").out;
  CHECK_THAT(page, ContainsSubstring("found-low:J06/02  DECIDED, NOT DONE") &&
                       ContainsSubstring("to do: re-torque at 2"));
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/2");
  CHECK_THAT(trial.done("show J06/2").out, ContainsSubstring("found-low:J06/02  SETTLED"));
}

TEST_CASE("show as JSON has the joint, its bolt, positions, deviations and progress", "[cli]") {
  Trial trial;
  fill(trial);
  const auto json = trial.done("show J06 --json").json();
  CHECK(json["joint"]["code"] == "J06");
  CHECK(json["joint"]["critical"] == true);
  // 580 MPa times the stress area of M12, 84.27 mm² (ISO 898-1:2013, table 5: 48 900 N).
  CHECK_THAT(json["bolt"]["proof_load_n"].get<double>(), WithinAbs(48'900, 50));
  REQUIRE(json["bolt"]["conditions"].size() == 1);
  const auto plausible = json["bolt"]["conditions"][0]["plausible_nm"];
  CHECK(plausible["low"].get<double>() < plausible["high"].get<double>());
  REQUIRE(json["positions"].size() == 4);
  const auto first = json["positions"][0];
  CHECK(first["spec"]["text"] == "80 N·m");
  CHECK(first["spec"]["source"] == "Manual p. 1");
  CHECK(first["found"]["best_nm"] == 80.0);
  CHECK(first["verdict"] == "within");
  CHECK(first["out"] == true);
  CHECK(first["passes_done"] == 1);
  CHECK(first["passes"] == 3);
  CHECK(first["final_value"] == false);
  CHECK(first["striped"] == false);
  CHECK(json["positions"][2]["x"] == first["x"]);
  CHECK(json["deviations"].size() == 2);
  CHECK(json["deviations"][0]["settled"].is_null());
  CHECK(json["no_plan"].is_null());
}

TEST_CASE("show of a position tells every fact about it", "[cli]") {
  Trial trial;
  fill(trial);
  const auto page = trial.done("show J06/1").out;
  CHECK_THAT(page, ContainsSubstring("broke normal by LM") && ContainsSubstring("bag D1"));
  CHECK_THAT(page,
             ContainsSubstring("found 80.0 N·m = 59.0") && ContainsSubstring("uncertainty ±"));
  CHECK_THAT(page, ContainsSubstring("nothing to flag"));
  CHECK_THAT(page, ContainsSubstring("pass 1, 56 N·m: done by KB") &&
                       ContainsSubstring("pass 2, 80 N·m: open") &&
                       ContainsSubstring("no final stripe"));
  CHECK_THAT(page, ContainsSubstring("J06/01 60s 75s 80o 84p on TW2"));
  CHECK_THAT(page, !ContainsSubstring("57s 61s 62o 63p"));
  const auto json = trial.done("show J06/1 --json").json();
  CHECK(json["row"]["position"] == 1);
  CHECK(json["passes"][0]["stands"] == "done");
  CHECK(json["passes"][0]["done"]["by"] == "KB");
  CHECK(json["passes"][1]["done"].is_null());
  CHECK(json["stripe"].is_null());
  CHECK(json["lines"].size() == 5);
  const auto empty = trial.done("show J06/4").out;
  CHECK_THAT(empty, ContainsSubstring("found empty by KB") && ContainsSubstring("not tested"));
}

TEST_CASE("show answers what it does not know with the nearest name", "[cli]") {
  Trial trial;
  fill(trial);
  const auto unknown = trial.run("show J07");
  CHECK(unknown.code == 1);
  CHECK_THAT(unknown.err, ContainsSubstring("no joint \"J07\"") && ContainsSubstring("J06?"));
  CHECK(trial.run("show J06/5").code == 2);
  const auto several = trial.run("show J06/1-2");
  CHECK(several.code == 2);
  CHECK_THAT(several.said(), ContainsSubstring("one position, such as J06 or J06/01"));
}

TEST_CASE("show works where no order of reassembly can be found, and says so", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("joint J01 --holds lid --size M8 --grade 8.8 --count 2 --after J02");
  trial.done("joint J02 --holds pan --size M8 --grade 8.8 --count 2 --after J01");
  CHECK_THAT(trial.done("show J06").out, ContainsSubstring("no plan: "));
  CHECK_THAT(trial.done("show J06/1").out, ContainsSubstring("no plan: "));
  CHECK(trial.done("show J06 --json").json()["no_plan"].is_string());
}

TEST_CASE("the page of a position shows what is specified for it and nothing else", "[cli]") {
  Trial trial;
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done(
      "joint J06 --holds cover --size M12 --grade 8.8 --count 6 --spec '80 N·m' --source 'p. 12'");
  trial.done("joint J06/5-6 --spec '40 N·m' --source 'p. 13'");
  const auto own = trial.done("show J06/6").out;
  CHECK_THAT(
      own, ContainsSubstring("specified at 5-6: 40 N·m") && !ContainsSubstring("specified at 1-4"));
  CHECK_THAT(trial.done("show J06/1").out, ContainsSubstring("specified at 1-4: 80 N·m"));
  CHECK_THAT(trial.done("show J06").out,
             ContainsSubstring("80 N·m at 1-4") && ContainsSubstring("40 N·m at 5-6"));
}

}  // namespace show_test
