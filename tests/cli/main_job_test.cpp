// The whole main job through the program's own commands: start, wrench, joint, out, found,
// compare, audit, sequence.

#include <algorithm>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace main_job_test {

namespace {

// A bench with a logbook, one wrench and one joint of 16.
Trial& set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done(
      "joint J06 --holds 'bearing cap' --size M12x1.75 --length 90mm --grade 8.8 --count 16 "
      "--spec '40 N·m, 60 N·m, 80 N·m' --source 'GB-1 Shop Manual rev C p. 12' "
      "--condition oiled --layout 'rectangle 2x8'");
  return trial;
}

}  // namespace

TEST_CASE("the main job runs from the first bolt to the sequence", "[cli]") {
  Trial trial;
  set_up(trial);
  CHECK(trial.done("out J06/1-14 --bag A").out ==
        "line 5: J06/1-14 out, broke normal, bag A; 14 of 16 accounted for\n");
  trial.done("found J06/03 60s 70s 77s 80o 83p --wrench TW2");

  const auto rows = trial.done("compare --json").json()["rows"];
  REQUIRE(rows.size() == 16);
  const auto& row = rows[2];
  CHECK(row["joint"] == "J06");
  CHECK(row["position"] == 3);
  CHECK(row["spec"]["text"] == "40 N·m, 60 N·m, 80 N·m");
  CHECK(row["spec"]["low_nm"] == 72.0);
  CHECK(row["spec"]["nominal_nm"] == 80.0);
  CHECK(row["spec"]["high_nm"] == 88.0);
  CHECK(row["found"]["best_nm"] == 80.0);
  CHECK(row["found"]["low_nm"] == 78.5);
  CHECK(row["found"]["high_nm"] == 81.5);
  CHECK(row["found"]["readings"].size() == 5);
  CHECK(row["verdict"] == "within");
  CHECK(row["grade"] == "A");
  CHECK(row["ratio"] == 1.0);
  CHECK(rows[0]["found"].is_null());
  CHECK(rows[0]["verdict"].is_null());

  const auto audit = trial.run("audit --json");
  CHECK(audit.code == 1);
  CHECK(audit.json()["ready"] == false);
  const auto deviations = audit.json()["deviations"];
  REQUIRE(deviations.size() == 1);
  CHECK(deviations[0]["rule"] == "count out");
  CHECK(deviations[0]["level"] == "hold");
  CHECK(deviations[0]["joint"] == "J06");
  CHECK(deviations[0]["position"].is_null());

  trial.done("out J06/15,16 --bag A");
  const auto clean = trial.done("audit --json").json();
  CHECK(clean["ready"] == true);
  CHECK(clean["deviations"].empty());

  const auto steps = trial.done("sequence --json").json()["steps"];
  REQUIRE(steps.size() == 3 * 16);
  CHECK(steps[0]["n"] == 1);
  CHECK(steps[0]["pass"] == 1);
  CHECK(steps[0]["target_nm"] == 40.0);
  CHECK(steps[0]["wrench"] == "TW2");
  CHECK(steps[0]["setting"] == 40.0);
  CHECK(steps[0]["setting_unit"] == "N·m");
  CHECK(steps[47]["target_nm"] == 80.0);
}

TEST_CASE("what was typed is kept beside the exact value", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J07 --holds cover --size m6 --grade 8.8 --count 4 --spec '7,5 ft-lb'");
  const auto text = trial.done("compare J07").out;
  CHECK_THAT(text, ContainsSubstring("7.5 ft·lbf"));
  CHECK_THAT(text, ContainsSubstring("7.5 ft·lbf = 10.17 N·m = 90 in·lbf"));
}

TEST_CASE("a wrong line is struck and replaced with a reason", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("found J06/03 60s 70s 75s 80o --wrench TW2");
  CHECK(trial.run("found J06/04 60s 65o --wrench TW2 --replace 5").code == 2);
  trial.done("found J06/04 60s 70s 75s 80o --wrench TW2 --replace 5 --why 'wrong position'");
  const auto rows = trial.done("compare J06 --json").json()["rows"];
  CHECK(rows[2]["found"].is_null());
  CHECK(rows[3]["found"]["best_nm"] == 80.0);
  CHECK(trial.run("strike 5 --why again").code == 1);
  CHECK(trial.run("strike 99 --why never").code == 1);
  CHECK(trial.run("strike 1 --why never").code == 1);
  CHECK(trial.run("strike 6 --why 'a strike'").code == 1);
  CHECK(trial.run("strike 7 --why ' '").code == 2);
  trial.done("strike 7 --why 'not tested after all'");
  CHECK(trial.done("compare J06 --json").json()["rows"][3]["found"].is_null());
}

TEST_CASE("a joint that is struck leaves strays that hold the audit", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("out J06/1-16");
  trial.done("strike 3 --why 'wrong count'");
  const auto audit = trial.run("audit --json");
  CHECK(audit.code == 1);
  CHECK(audit.json()["deviations"][0]["rule"] == "stray entry");
  trial.done("joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 16");
  CHECK(trial.done("audit --json").json()["ready"] == true);
}

TEST_CASE("a hold point or an item that is struck leaves strays that hold the audit", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("hold-point H1 --what 'pump off'");
  trial.done("item CL --what clips --count 2");
  trial.done("hold-point H1 --pass --note 'tried the switch'");
  trial.done("item CL --back 2");
  CHECK(trial.run("audit").code == 0);
  std::string code;
  std::string missing;
  SECTION("hold point") {
    trial.done("strike 5 --why 'none there'");
    code = "H1";
    missing = "that hold point is not in the logbook any more";
  }
  SECTION("item") {
    trial.done("strike 6 --why 'none there'");
    code = "CL";
    missing = "that item is not in the logbook any more";
  }
  const auto audit = trial.run("audit --json");
  CHECK(audit.code == 1);
  const auto stray = audit.json()["deviations"][0];
  CHECK(stray["rule"] == "stray entry");
  CHECK_THAT(stray["says"].get<std::string>(),
             ContainsSubstring("speaks of " + code) && ContainsSubstring(missing));
  const std::string line = code == "H1" ? "7" : "8";
  CHECK_THAT(stray["do"].get<std::string>(), ContainsSubstring("strike " + line + " --why"));
  trial.done("strike " + line + " --why 'none there'");
  CHECK(trial.run("audit").code == 0);
}

TEST_CASE("a finding whose wrench is struck is shown as no evidence", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("out J06/1-16");
  trial.done("found J06/03 60s 70s 75s 80o --wrench TW2");
  trial.done("strike 2 --why 'not our wrench'");
  const auto row = trial.done("compare --json").json()["rows"][2];
  CHECK(row["found"]["best_nm"] == 80.0);
  CHECK(row["verdict"] == "not comparable");
  CHECK(row["grade"] == "X");
  REQUIRE(row["grade_reasons"].size() == 1);
  const auto text = trial.done("compare J06").out;
  CHECK_THAT(text, ContainsSubstring("J06/03 grade X: its wrench is no longer in the logbook"));
  CHECK_THAT(text, ContainsSubstring("not tested: 1-2,4-16"));
  const auto audit = trial.run("audit --json").json()["deviations"];
  REQUIRE(audit.size() == 2);
  CHECK(audit[0]["rule"] == "stray entry");
  CHECK(audit[1]["rule"] == "found not comparable");
  // Entered again the wrench counts as before.
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  const auto again = trial.done("compare --json").json();
  CHECK(again["rows"][2]["grade"] == "A");
}

TEST_CASE("without a specification compare says so in the place of a verdict", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J07 --holds lid --size M12 --grade 8.8 --count 2");
  trial.done("found J07/1 60s 70s 75s 80o --wrench TW2");
  const auto text = trial.done("compare J07").out;
  CHECK_THAT(text, ContainsSubstring("no specification  A"));
  CHECK_THAT(text, !ContainsSubstring("not comparable"));
  const auto rows = trial.done("compare J07 --json").json();
  CHECK(rows["rows"][0]["verdict"] == "not comparable");
}

TEST_CASE("a limit is kept clear of on the plan, which says so", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J07 --holds lid --size M12 --grade 8.8 --count 2 --spec 'min 70 N·m'");
  trial.done("joint J08 --holds lid --size M12 --grade 8.8 --count 2 --spec 'max 70 N·m'");
  trial.width = 200;
  const auto text = trial.done("sequence J07 J08").out;
  CHECK_THAT(text, ContainsSubstring(
                       "TW2 at 73 N·m (at least 70 N·m asked, the wrench's ±4% allowed for)"));
  CHECK_THAT(text, ContainsSubstring(
                       "TW2 at 67 N·m (at most 70 N·m asked, the wrench's ±4% allowed for)"));
  const auto steps = trial.done("sequence J07 --json").json()["steps"];
  CHECK(steps.back()["limit"] == "min");
  CHECK(steps.back()["target_nm"] == 70.0);
  CHECK(steps.back()["setting"] == 73.0);
}

TEST_CASE("a logbook without joints says so in one line", "[cli]") {
  Trial trial;
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.width = 200;
  for (const auto* command : {"compare", "sequence", "audit"}) {
    INFO(command);
    const auto text = trial.done(command).out;
    CHECK(text.starts_with("no joint in this logbook yet"));
    CHECK(std::ranges::count(text, '\n') == 1);
  }
  const auto audit = trial.done("audit --json").json();
  CHECK(audit["ready"] == true);
}

TEST_CASE("joint and wrench names are found in any case, and near misses are suggested", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("found j06/1 60s 80o --wrench tw2");
  const auto joint = trial.run("out J60/1");
  CHECK(joint.code == 1);
  CHECK_THAT(joint.said(), ContainsSubstring("\"J60\""));
  const auto wrench = trial.run("found J06/1 60s --wrench TW9");
  CHECK(wrench.code == 1);
  CHECK_THAT(wrench.said(), ContainsSubstring("known are TW2"));
  CHECK(trial.run("compare J7").code == 1);
}

TEST_CASE("bad input ends with exit code 2 and writes nothing", "[cli]") {
  Trial trial;
  set_up(trial);
  const auto before = trial.done("compare --json").out;
  for (const auto* command : {
           "out J06/17",
           "out J06/0",
           "out J06",
           "out J06/1 --broke snapped",
           "found J06/3 60s 55o --wrench TW2",
           "found J06/3 60 --wrench TW2",
           "found J06/1-3 60s --wrench TW2",
           "found J06/3 60s 210o --wrench TW2",
           "joint J08 --holds x --size M12 --grade 8.8 --count 4 --spec 80",
           "joint J08 --holds x --size M12 --grade 8.8 --count 0",
           "joint J08 --holds x --size Q12 --grade 8.8 --count 4",
           "joint J08 --holds x --size M12 --grade 8.8 --count 5 --layout 'rectangle 2x2'",
           "joint J08 --size M12 --grade 8.8 --count 4",
           "joint J06 --source somewhere",
           "joint J06 --spec '40 N·m, loosen'",
           "joint J06 --spec 'min 90 N·m, max 100 N·m'",
           "wrench TW3 --graduation '1 N·m'",
           "wrench TW3 --range '20..200' --graduation '1 N·m'",
           "out J06/1 --at yesterday",
           "convert 85",
           "convert '85 N·m' --to bar",
           "compare --unknown",
       }) {
    INFO(command);
    const auto outcome = trial.run(command);
    CHECK(outcome.code == 2);
    CHECK(outcome.out.empty());
    CHECK_FALSE(outcome.err.empty());
  }
  CHECK(trial.done("compare --json").out == before);
}

TEST_CASE("a bolt cannot come out twice, nor a joint be entered twice", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("out J06/1-8");
  CHECK(trial.run("out J06/8-10").code == 1);
  CHECK(trial.run("joint j06 --holds x --size M12 --grade 8.8 --count 4").code == 1);
}

TEST_CASE("a misspelt command or option is answered with the nearest one", "[cli]") {
  Trial trial;
  const auto command = trial.run("comparr");
  CHECK(command.code == 2);
  CHECK_THAT(command.said(), ContainsSubstring("did you mean compare?"));
  const auto option = trial.run("out J06/1 --brok tight");
  CHECK(option.code == 2);
  CHECK_THAT(option.said(), ContainsSubstring("did you mean --broke?"));
  CHECK(trial.run("").code == 2);
}

TEST_CASE("help and version are answers", "[cli]") {
  Trial trial;
  CHECK_THAT(trial.done("--help").out, ContainsSubstring("found"));
  CHECK_THAT(trial.done("found --help").out, ContainsSubstring("60s 70s 75s 80o"));
  CHECK_THAT(trial.done("--version").out, ContainsSubstring("boltwitness 1."));
}

TEST_CASE("the logbook is the named one, else the nearest above", "[cli]") {
  Trial trial;
  CHECK(trial.run("compare").code == 2);
  trial.done("start " + trial.folder().file("a.bolts") + " --machine A");
  CHECK(trial.run("compare").code == 0);
  trial.done("start " + trial.folder().file("b.bolts") + " --machine B");
  const auto two = trial.run("compare");
  CHECK(two.code == 2);
  CHECK_THAT(two.said(), ContainsSubstring("a.bolts") && ContainsSubstring("b.bolts"));
  CHECK(trial.run("compare --log " + trial.folder().file("a.bolts")).code == 0);
  CHECK(trial.run("compare --log " + trial.folder().file("c.bolts")).code == 3);
  CHECK(trial.run("start " + trial.folder().file("a.bolts") + " --machine A").code == 1);
}

TEST_CASE("who and when follow the options, then the environment, then the login", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.login.clear();
  const auto nobody = trial.run("out J06/1");
  CHECK(nobody.code == 2);
  CHECK_THAT(nobody.said(), ContainsSubstring("--by"));
  trial.environment["BOLTWITNESS_BY"] = "LM";
  trial.done("out J06/1 --at 2026-05-30T10:00Z");
  const auto ahead = trial.run("out J06/2 --by KB --at 2027-01-01");
  CHECK(ahead.code == 2);
  CHECK_THAT(ahead.said(), ContainsSubstring("ahead of this machine's clock"));
}

TEST_CASE("a found torque that breaks the tolerance holds the audit, with the slip named",
          "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("out J06/1-16");
  trial.done("found J06/01 40s 45s 50s 55s 59o --wrench TW2");
  const auto deviations = trial.run("audit --json").json()["deviations"];
  REQUIRE(deviations.size() == 2);
  CHECK(deviations[0]["id"] == "found-low:J06/01");
  CHECK(deviations[0]["position"] == 1);
  CHECK(deviations[1]["rule"] == "unit slip");
  CHECK_THAT(deviations[1]["says"].get<std::string>(),
             ContainsSubstring("meant in ft·lbf but taken in N·m"));
}

TEST_CASE("without a specification the finding stands in, provisional and shown as such", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J09 --holds cover --size M8 --grade 8.8 --count 4");
  trial.done("found J09/1 20s 22s 24o --wrench TW2");
  trial.done("found J09/2 20s 22s 24s 26o --wrench TW2");
  trial.done("found J09/3 20s 22s 24o --wrench TW2");
  CHECK_THAT(trial.done("compare J09").out, ContainsSubstring("provisional, from finding: 24 N·m"));
  const auto plan = trial.done("sequence J09 --json").json();
  CHECK(plan["steps"][0]["target_nm"] == 24.0);
  CHECK(plan["steps"][0]["provisional"] == true);
  CHECK_THAT(plan["warnings"].dump(), ContainsSubstring("provisional"));
  CHECK(trial.done("audit --json").json()["deviations"][0]["rule"] == "no specification");
}

TEST_CASE("a torque-plus-angle finding is not comparable and the plan turns", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done(
      "joint J10 --holds head --size M12x1.25 --grade 10.9 --count 4 --one-time "
      "--spec '60 N·m, +60° (55-65)' --source 'GB-1 Shop Manual rev C p. 20'");
  trial.done("found J10/1 60s 80s 100o --wrench TW2");
  const auto row = trial.done("compare J10 --json").json()["rows"][0];
  CHECK(row["verdict"] == "not comparable");
  CHECK(row["ratio"].is_null());
  const auto plan = trial.done("sequence J10 --json").json();
  CHECK(plan["steps"][4]["angle_deg"] == 60.0);
  CHECK(plan["steps"][4]["target_nm"].is_null());
  CHECK(plan["steps"][4]["wrench"].is_null());
}

TEST_CASE("a circle in the order of joints is an error that names it", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J11 --holds a --size M8 --grade 8.8 --count 2 --spec '20 N·m' --after J12");
  trial.done("joint J12 --holds b --size M8 --grade 8.8 --count 2 --spec '20 N·m' --after J11");
  const auto outcome = trial.run("sequence");
  CHECK(outcome.code == 1);
  CHECK_THAT(outcome.said(),
             ContainsSubstring("J11 after J12") && ContainsSubstring("J12 after J11"));
}

TEST_CASE("a torque that no wrench can do is said, with what would", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J13 --holds lid --size M5 --grade 8.8 --count 2 --spec '5 N·m'");
  const auto plan = trial.done("sequence J13 --json").json();
  CHECK(plan["steps"][0]["wrench"].is_null());
  CHECK_THAT(plan["warnings"].dump(), ContainsSubstring("one covering 4.5 to 5.5 N·m is needed"));
}

TEST_CASE("conversion answers in the unit asked for", "[cli]") {
  // Source: units.csv, 1 lbf·ft = 1.3558179483314004 N·m exactly.
  Trial trial;
  const auto json = trial.done("convert '70 ft·lbf' --to N·m --json").json();
  CHECK_THAT(json["value"].get<double>(), WithinRel(94.907256383198028, 1e-15));
  CHECK(json["unit"] == "N·m");
  CHECK(json["nm"] == json["value"]);
  CHECK(trial.done("convert '70 ft·lbf' --to Nm").out == "94.9073 N·m\n");
  CHECK_THAT(trial.done("convert '70 ft·lbf'").out, ContainsSubstring("840  in·lbf"));

  // What was typed stays: no digit of it goes, in the table, in its own unit and as text.
  const auto long_one = trial.done("convert '123456,7 N·m' --json").json();
  CHECK(long_one["value"].get<double>() == 123456.7);
  CHECK(long_one["stated"]["value"].get<double>() == 123456.7);
  CHECK(long_one["stated"]["unit"] == "N·m");
  CHECK(long_one["typed"] == "123456,7 N·m");
  CHECK_THAT(trial.done("convert '123456,7 N·m'").out, ContainsSubstring("  123456.7  N·m"));
  CHECK(trial.done("convert '70 ft-lb' --to in-lb --json").json()["value"].get<double>() == 840.0);
  CHECK(trial.done("convert '0.7 N·m' --to cNm --json").json()["value"].get<double>() == 70.0);
}

TEST_CASE("a replaced line is of the kind that replaces it", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("out J06/1-16");
  const auto refused =
      trial.run("found J06/1 60s 80o --wrench TW2 --replace 5 --why 'mistyped number'");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("line 5 is a removal"));
  CHECK(trial.done("compare J06 --json").json()["rows"][0]["found"].is_null());
}

TEST_CASE("a plan follows the order of entry where only the day was given", "[cli]") {
  Trial trial;
  set_up(trial);
  for (const auto* code : {"J01", "J02", "J03"}) {
    trial.done(std::string("joint ") + code +
               " --holds x --size M12 --grade 8.8 --count 1 --spec '80 N·m'");
  }
  for (const auto* code : {"J02", "J01", "J03"}) {
    trial.done(std::string("out ") + code + "/1 --at 2026-03-05");
  }
  const auto steps = trial.done("sequence J01 J02 J03 --json").json()["steps"];
  std::string order;
  for (const auto& step : steps) {
    const auto code = step["joint"].get<std::string>();
    if (!order.ends_with(code)) order += code;
  }
  CHECK(order == "J03J01J02");
}

TEST_CASE("a precedence names its joint in any case of letters", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("joint J01 --holds x --size M12 --grade 8.8 --count 1 --spec '80 N·m' --after j06");
  const auto plan = trial.done("sequence --json").json();
  CHECK(plan["warnings"].empty());
  CHECK(plan["steps"].front()["joint"] == "J06");
  CHECK(plan["steps"].back()["joint"] == "J01");
}

TEST_CASE("what would break the store's rules is bad input, in words", "[cli]") {
  Trial trial;
  set_up(trial);
  for (const auto* command : {
           "found J06/1 60s 80o --wrench TW2 --prevailing '0 N·m'",
           "joint J01 --holds x --size M12 --grade 8.8 --count 1 --after J06 j06",
           "out J06/1 --at 0000-01-01T00:00+14:00",
           "out J06/1 --at 9999-12-31T23:59-14:00",
       }) {
    INFO(command);
    const auto outcome = trial.run(command);
    CHECK(outcome.code == 2);
    CHECK(outcome.err.find("constraint") == std::string::npos);
  }
}

TEST_CASE("a setting falls on a mark of the scale, to the last digit", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("wrench TW8 --range '0.2..1.4 N·m' --graduation '0.1 N·m' --calibrated 2026-03-02");
  trial.done("joint J01 --holds x --size M3 --grade 8.8 --count 1 --spec '1.4 N·m'");
  const auto steps = trial.done("sequence J01 --json").json()["steps"];
  CHECK(steps[0]["setting"] == 1.4);
}

}  // namespace main_job_test
