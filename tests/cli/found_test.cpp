// The second half of the found torque through the command itself: offsets, advice, next setting.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace found_test {

namespace {

// A bench with a logbook, a wrench of 20 to 200 N·m and a joint of M12 8.8 with this specification.
Trial& set_up(Trial& trial, const std::string& specification) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 16 " +
             (specification.empty() ? "" : "--spec '" + specification + "' --condition oiled"));
  trial.width = 200;
  return trial;
}

}  // namespace

TEST_CASE("found names the line, the mark's part and the interval", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  const auto text =
      trial.done("found J06/01 '62s 9°' '70s 5°' '79s 1°' '88p 4°' --wrench TW2 --parts").told();
  CHECK_THAT(text, ContainsSubstring("by the line through the offsets 78.7 to 81.9 N·m"));
  CHECK_THAT(text, ContainsSubstring("u from line 0.81"));
  CHECK_THAT(text, ContainsSubstring("mark 2.2"));
  const auto none = trial.done("found J06/02 60s 70s 75s 80o --wrench TW2 --parts").told();
  CHECK_THAT(none, ContainsSubstring("mark 3.8"));
  const auto set_aside =
      trial.done("found J06/03 '60s 12°' '75s 6°' 80o 85p --wrench TW2 --parts").told();
  CHECK_THAT(set_aside, ContainsSubstring("offsets not used: the line through the offsets"));
}

TEST_CASE("a verdict that its digits do not show says how close it is", "[cli]") {
  // 7.12 ±0.51 N·m was low against 7.626: the digits make 7.63. 63 in·lbf are 7.1180 N·m; the limit
  // 75 in·lbf less a tenth is 7.6264.
  Trial trial;
  set_up(trial, "80 N·m");
  trial.done("wrench W --range '40..250 in-lb' --graduation '1 in-lb' --calibrated 2026-03-02");
  trial.done(
      "joint D4 --holds cover --size M6 --length 30mm --grade 8.8 --count 8 "
      "--spec '75 in-lb' --condition oiled");
  const auto text = trial.done("found D4/3 61s 63o 65p --wrench W").told();
  CHECK_THAT(text, ContainsSubstring("63.0 ±4.5 in·lbf: low (67.5 to 82.5 in·lbf)"));
  CHECK_THAT(text, ContainsSubstring("closer than the digits show, 67.4") &&
                       ContainsSubstring("against the limit of 67.5"));
  CHECK_THAT(trial.done("compare D4").told(),
             ContainsSubstring("D4/03 low: closer than the digits show, 67.4"));
  const auto clear = trial.done("found D4/4 50s 52o 54p --wrench W").told();
  CHECK_THAT(clear, ContainsSubstring("in·lbf: low ("));
  CHECK_THAT(clear, !ContainsSubstring("closer than"));
}

TEST_CASE("a grade beside a wide uncertainty says what each is about", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  trial.done("wrench W --range '40..250 in-lb' --graduation '1 in-lb' --calibrated 2026-03-02");
  trial.done(
      "joint D4 --holds cover --size M6 --grade 8.8 --count 8 --spec '75 in-lb' "
      "--condition oiled");
  trial.done("out D4/1-8");
  const auto text = trial.done("found D4/1 50s 60s 73s 76o --wrench W").told();
  CHECK_THAT(text, ContainsSubstring("grade A"));
  CHECK_THAT(text, ContainsSubstring("the grade is about how it was read; that it is known to ±"));
  CHECK_THAT(
      text, ContainsSubstring("the width of the pen line; size and length under the head on record "
                              "would tell more of it"));
  CHECK_THAT(trial.done("found J06/01 60s 70s 78s 80o 81p --wrench TW2").out,
             !ContainsSubstring("the grade is about"));
}

TEST_CASE("a value is never written outside its bracket", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  trial.done(
      "wrench W --range '20..200 N·m' --graduation '0.5 N·m' --calibrated 2026-03-02 "
      "--accuracy 10%");
  const auto text = trial.done("found J06/01 80s 80.5o --wrench W --parts").told();
  CHECK_THAT(text, ContainsSubstring("found 80.5 N·m"));
  CHECK_THAT(text, ContainsSubstring("bracket 80.25 to 80.75 N·m"));
}

TEST_CASE("found says which steps would decide, and which make grade A", "[cli]") {
  Trial trial;
  set_up(trial, "45 N·m");
  const auto text = trial.done("found J06/01 30s 40s 50p --wrench TW2").told();
  CHECK_THAT(text,
             ContainsSubstring(
                 "3 N·m steps between 40 and 50, on until the mark is past, would decide it"));
  CHECK_THAT(text,
             ContainsSubstring(
                 "3 N·m steps between 40 and 50 would give a bracket fine enough for grade A"));
}

TEST_CASE("found says that steps alone do not decide it, and which wrench would do", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m ±5%");
  const auto text = trial.done("found J06/01 70s 75s 80o --wrench TW2").told();
  CHECK_THAT(
      text,
      ContainsSubstring(
          "steps alone, however fine, do not decide it: wrench (±4%) and stopping late make"));
  CHECK_THAT(text, ContainsSubstring(
                       "a ±2% wrench in 1 N·m steps, on until the mark is past, would decide it"));
}

TEST_CASE("a second test of one fastener says that the first stands too", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  const std::string readings = " 60s 70s 75s 80o --wrench TW2";
  CHECK_THAT(trial.done("found J06/02" + readings).said(), !ContainsSubstring("tested already"));
  CHECK_THAT(trial.done("found J06/02 70s 75s 78o --wrench TW2").said(),
             ContainsSubstring("J06/02 was tested already: ") &&
                 ContainsSubstring("(line 5). Both stand, and the latest counts") &&
                 ContainsSubstring("strike 5 --why TEXT"));
  // In the place of the other it is the only one.
  trial.done("strike 5 --why mistyped");
  CHECK_THAT(trial.done("found J06/02 70s 75s 79o --replace 6 --why mistyped").said(),
             !ContainsSubstring("tested already"));
}

TEST_CASE("the next setting is proposed and nothing is written", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  const auto first = trial.done("found J06/03 --wrench TW2 --next --json").json();
  CHECK(first["next_setting"] == 48.0);
  CHECK(first["unit"] == "N·m");
  CHECK_FALSE(first["reason"].get<std::string>().empty());
  CHECK_THAT(trial.done("found J06/03 60s 70s --wrench TW2 --next").out,
             ContainsSubstring("next 75 N·m: "));
  const auto end = trial.done("found J06/03 80s 88s --wrench TW2 --next --json").json();
  CHECK(end["next_setting"].is_null());
  CHECK_THAT(end["reason"].get<std::string>(), ContainsSubstring("the top of the tolerance"));
  CHECK_THAT(trial.done("found J06/03 70s 75s 80o --wrench TW2 --next").out,
             ContainsSubstring("stop: the mark lined up between 75 N·m and 80 N·m"));
  const auto compared = trial.done("compare --json").json();
  for (const auto& row : compared["rows"]) {
    CHECK(row["found"].is_null());
  }
}

TEST_CASE("without a specification the bolt's yield is the ceiling", "[cli]") {
  Trial trial;
  set_up(trial, "");
  const auto end = trial.done("found J06/03 50s 63s --wrench TW2 --next --json").json();
  CHECK(end["next_setting"].is_null());
  CHECK_THAT(end["reason"].get<std::string>(), ContainsSubstring("90 % of the yield"));
}

TEST_CASE("no setting is proposed where nothing can line up", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  trial.done("out J06/1 --broke empty");
  trial.done("out J06/2 --broke sheared");
  trial.done("out J06/3 --no-mark");
  trial.done("out J06/4 --broke seized");
  const auto refused = [&](const std::string& address, const std::string& says) {
    const auto outcome = trial.run("found " + address + " --wrench TW2 --next");
    INFO(outcome.err);
    CHECK(outcome.code == 1);
    CHECK(outcome.out.empty());
    CHECK_THAT(outcome.err, ContainsSubstring(says));
  };
  refused("J06/1", "J06/01: the hole was found empty");
  refused("J06/2", "the fastener sheared");
  refused("J06/3", "no teardown mark was drawn");
  CHECK(trial.done("found J06/4 --wrench TW2 --next --json").json()["next_setting"] == 48.0);
}

TEST_CASE("a setting between two marks is remarked on and lowers the grade", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  const auto found = trial.done("found J06/1 70s 75.1s 80o --wrench TW2");
  CHECK_THAT(found.err, ContainsSubstring("75.1 is between two marks of TW2, which has one every 1 "
                                          "N·m; check the setting"));
  CHECK_THAT(found.out, ContainsSubstring("grade B") &&
                            ContainsSubstring("lies between two marks of the wrench's scale"));
  // Not where it decides nothing, and not on a wrench that is read between its marks.
  const auto early = trial.done("found J06/2 60.5s 70s 75s 80o --wrench TW2");
  CHECK_THAT(early.err, ContainsSubstring("60.5 is between"));
  CHECK_THAT(early.out, ContainsSubstring("grade A"));
  trial.done(
      "wrench TW6 --range '20..200 N·m' --graduation '1 N·m' --kind indicating "
      "--calibrated 2026-03-02");
  const auto read_off = trial.done("found J06/3 70s 75.5s 80o --wrench TW6");
  CHECK(read_off.err.empty());
  CHECK_THAT(read_off.out, ContainsSubstring("grade A"));
}

TEST_CASE("a running torque that takes all that was found is refused", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  for (const auto* torque : {"80", "95"}) {
    const auto refused = trial.run(
        std::string("found J06/1 70s 75s 80o --wrench TW2 --prevailing ") + "'" + torque + " N·m'");
    CHECK(refused.code == 2);
    CHECK(refused.out.empty());
    CHECK_THAT(refused.err, ContainsSubstring("takes the whole of the 80 N·m that was found"));
  }
  CHECK(trial.run("found J06/1 30s --wrench TW2 --prevailing '30 N·m'").code == 2);
  const auto row = trial.done("compare --json").json()["rows"][0];
  CHECK(row["found"].is_null());
  trial.done("found J06/1 70s 75s 80o --wrench TW2 --prevailing '5 N·m'");
  CHECK(trial.done("compare --json").json()["rows"][0]["ratio"].get<double>() == 75.0 / 80.0);
}

TEST_CASE("compare names what stood between the setting and the fastener", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  trial.done("found J06/1 70s 75s 80o --wrench TW2 --prevailing '5 N·m'");
  trial.done("found J06/2 60s 65s 70o --wrench TW2 --extension 40mm --wrench-length 400mm");
  trial.done("found J06/3 70s 75s 80o --wrench TW2");
  const auto text = trial.done("compare J06").out;
  CHECK_THAT(text, ContainsSubstring("J06/01 running torque 5 N·m") &&
                       ContainsSubstring("J06/02 through") && !ContainsSubstring("J06/03 running"));
  const auto json = trial.done("compare --json").json();
  CHECK(json["rows"][0]["found"]["prevailing_nm"].get<double>() == 5.0);
  CHECK(json["rows"][0]["found"]["adapter"].is_null());
  CHECK(json["rows"][1]["found"]["adapter"].is_string());
  CHECK(json["rows"][1]["found"]["prevailing_nm"].is_null());
}

TEST_CASE("what --next cannot do is refused", "[cli]") {
  Trial trial;
  set_up(trial, "80 N·m");
  CHECK(trial.run("found J06/03 --wrench TW2").code == 2);
  CHECK(trial.run("found J06/03 250s --wrench TW2 --next").code == 2);
  CHECK(trial.run("found J06/03 60s --wrench TW2 --next --replace 3 --why wrong").code == 2);
}

TEST_CASE("no advice asks for a test of what must not be tested", "[cli]") {
  // Five alike, one apart and one undecided, of a joint that may be tested and of one that may not.
  for (const bool holds_load : {false, true}) {
    INFO(holds_load);
    Trial trial;
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
    trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint A1 --holds cap --size M12 --grade 8.8 --count 8 --spec '80 N·m ±40%' --source p1" +
        std::string(holds_load ? " --live-load" : ""));
    for (int position = 1; position <= 5; ++position) {
      trial.done("found A1/" + std::to_string(position) + " 78s 79s 80o 81p --wrench TW2");
    }
    trial.done("found A1/6 105s 106s 107o 108p --wrench TW2");
    trial.done("found A1/8 40s --wrench TW2");
    std::string told;
    for (const auto* command :
         {"audit --why", "show A1", "show A1/6", "show A1/8", "compare A1", "status", "sheet A1"}) {
      const auto answer = trial.run(command);
      told += answer.told() + ' ' + answer.said() + ' ';
    }
    REQUIRE_THAT(told, ContainsSubstring("outlier:A1/06"));
    REQUIRE_THAT(told, ContainsSubstring("undecided"));
    for (const auto* asks :
         {"test it again", "would settle it", "says what would settle", "start again well below",
          "boltwitness bench", "next: bench", "go on until the mark"}) {
      INFO(asks);
      if (holds_load) CHECK(told.find(asks) == std::string::npos);
    }
    const bool asks_for_it = told.find("test it again") != std::string::npos;
    CHECK(asks_for_it != holds_load);
  }
}

}  // namespace found_test
