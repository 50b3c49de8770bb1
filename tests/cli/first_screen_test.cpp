// What a person reads first: the state of the job with the next step, a test in two lines, the
// outsiders on top, and what is there to choose from. Each next step is typed as it was printed.

#include <algorithm>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace first_screen_test {

namespace {

std::size_t lines_in(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count(text, '\n'));
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

// A cover of four in the inch system in a logbook that is kept in N·m.
void set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p3.bolts");
  trial.done("start " + trial.folder().file("p3.bolts") + " --machine 'pump 3'");
  trial.done(
      "wrench TW2 --range '10..80 ft·lbf' --graduation '0.5 ft·lbf' --accuracy 1% "
      "--calibrated 2026-03-02");
}

void enter_cover(Trial& trial) {
  trial.done(
      "joint A1 --holds cover --size 1/2-13 --grade 'SAE J429 grade 5' --length 3in --count 4 "
      "--spec '50 ft·lbf ±15%' --source 'P-3 manual p. 4'");
}

std::string next_command(Trial& trial) {
  return trial.run("status --json").json()["next"]["command"].get<std::string>();
}

}  // namespace

TEST_CASE("the first screen of an empty logbook says so and is not finished", "[cli]") {
  Trial trial;
  set_up(trial);
  const auto answer = trial.run("");
  CHECK(answer.code == 1);
  CHECK(first_line(answer.out) == "Not begun: nothing entered yet");
  CHECK_THAT(answer.out, ContainsSubstring("next: boltwitness joint --help"));
  CHECK(trial.run("status").out == answer.out);
  trial.done(next_command(trial));
}

TEST_CASE("the first screen leads through a job, each next step typed as it is printed", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  trial.done("hold-point HV --what 'drive locked out'");
  trial.done("item CL --what clips --count 2 --before A1");
  CHECK(next_command(trial) == "hold-point HV --pass");
  trial.done(next_command(trial));
  CHECK(next_command(trial) == "bench A1");
  trial.done("out A1/1-4 --bag B1");
  std::vector<std::string> typed;
  for (int step = 0; step < 12; ++step) {
    const auto command = next_command(trial);
    if (command.empty()) break;
    typed.push_back(command);
    // The guided tightening needs somebody at the keyboard.
    trial.done(command == "tighten A1" ? "tighten A1/1-4" : command);
  }
  CHECK(typed.front() == "item CL --back 2");  // that A1 waits for
  CHECK(std::ranges::count(typed, "tighten A1") == 3);
  CHECK(std::ranges::count(typed, "stripe A1/1-4 --wiped") == 1);
  const auto end = trial.done("");
  CHECK(first_line(end.out) == "Finished: nothing is open");
  CHECK_THAT(end.out, ContainsSubstring("pump 3"));
}

TEST_CASE("a row a joint tells what is counted, where it is and what comes next", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  trial.done("joint B2 --holds gear --size M10 --grade 10.9 --count 3 --critical --spec '60 N·m'");
  trial.done("out A1/1-3 --bag B1");
  trial.done("out A1/4 --broke empty");
  CHECK_THAT(trial.run("status").out, ContainsSubstring("3 + 1 empty"));
  trial.done("out B2/1-3 --bag B2");
  const auto row_of = [&](const std::string& joint) {
    const auto text = trial.run("status").out;
    return first_line(text.substr(text.find("  " + joint + " ")));
  };
  CHECK_THAT(row_of("A1"), ContainsSubstring("0 of 3") && ContainsSubstring("1-3 B1, 4 empty"));
  trial.done("tighten A1/1-4");
  // Nobody asks for a second person, and what was tightened is in.
  CHECK_THAT(row_of("A1"), ContainsSubstring("1 of 3") && ContainsSubstring("-  in"));
  CHECK_THAT(row_of("B2"), ContainsSubstring("0  B2 ") && ContainsSubstring("TW2 at "));
}

TEST_CASE("a row a joint says where no wrench is entered yet, and what enters one", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  const auto said = [&] { return trial.run("status --json").json()["joints"][0]["next"]; };
  CHECK(said() == "test: no wrench entered (wrench --help)");
  trial.done("wrench TW1 --range '2..10 N·m' --graduation '0.1 N·m'");
  CHECK(said() == "test: no wrench fits");
}

TEST_CASE("what is below its least is not counted as final", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  trial.done("out A1/1-4 --bag B1");
  trial.done("tighten A1/1-4");
  trial.done("tighten A1/1-4");
  trial.done("tighten A1/2-4");
  trial.done("tighten A1/1 --set 30");
  const auto counts = trial.run("sequence --status --json").json()["joints"][0];
  CHECK(counts["final_value"] == 3);
}

TEST_CASE("a stripe refused for a pass that was left out says what leads on", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  trial.done("out A1/1-4 --bag B1");
  trial.done("tighten A1/1-4");
  trial.done("tighten A1/1-4");
  trial.done("tighten A1/1-3");
  trial.done("tighten A1/4 --skip 'no reach'");
  const auto refused = trial.run("stripe A1/4 --wiped");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("\"boltwitness tighten A1/04 --pass 3\""));
  trial.done("tighten A1/4 --pass 3");
  trial.done("stripe A1/1-4 --wiped");
}

TEST_CASE("a test that is well is told in two lines, in the unit of its specification", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  const auto well = trial.done("found A1/1 48s 49s 50o 51p --wrench TW2 --restart stacked").out;
  INFO(well);
  CHECK(lines_in(well) == 2);
  CHECK_THAT(first_line(well), ContainsSubstring("A1/01 50.0 ±") &&
                                   ContainsSubstring("ft·lbf: within (42.5 to 57.5 ft·lbf)") &&
                                   ContainsSubstring("grade A"));
  const auto low = trial.done("found A1/2 26s 27s 28o 29p --wrench TW2").out;
  INFO(low);
  CHECK(lines_in(low) > 2);
  CHECK_THAT(first_line(low), ContainsSubstring(": low (42.5 to 57.5 ft·lbf)"));
  CHECK_THAT(low, ContainsSubstring("it was tightened to about") &&
                      (ContainsSubstring("possible: ") || ContainsSubstring("likely: ")));
  CHECK_THAT(trial.done("found A1/3 48s 49s 50o 51p --wrench TW2 --parts").out,
             ContainsSubstring("uncertainty ±") && ContainsSubstring("u from"));
}

TEST_CASE("compare tells the outsiders first and joins what is alike", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  trial.done("found A1/1 48s 49s 50o 51p --wrench TW2");
  trial.done("found A1/2 26s 27s 28o 29p --wrench TW2");
  trial.done("found A1/4 48s 49s 50o 51p --wrench TW2");
  const auto text = trial.done("compare").out;
  INFO(text);
  CHECK(first_line(text) ==
        "3 of 4 positions tested: 1 outside, 0 undecided, 0 not comparable, 2 within");
  CHECK(text.find("A1/02") < text.find("A1/1,4"));
  CHECK_THAT(text, ContainsSubstring("not tested: A1/3") || ContainsSubstring("not tested: A1/03"));
  CHECK_THAT(trial.done("compare A1").out,
             ContainsSubstring("specified 50 ft·lbf ±15%") && ContainsSubstring("bracket"));
}

TEST_CASE("wrench, joint and show alone list what there is", "[cli]") {
  Trial trial;
  set_up(trial);
  CHECK_THAT(trial.done("joint").out, ContainsSubstring("no joint in this logbook yet"));
  enter_cover(trial);
  CHECK_THAT(trial.done("wrench").out,
             ContainsSubstring("TW2") && ContainsSubstring("until 2027-03-02"));
  CHECK(trial.done("wrench --json").json()["wrenches"][0]["in_calibration"] == true);
  CHECK_THAT(trial.done("show").out, ContainsSubstring("A1") && ContainsSubstring("cover"));
  CHECK(trial.done("joint").out == trial.done("show").out);
  CHECK(trial.run("wrench --range '1..2 N·m'").code == 2);
  CHECK(trial.run("joint --holds cover").code == 2);
}

TEST_CASE("what people type is taken or asked back", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done(
      "joint B2 --holds gear --size M10 --grade 8.8 --count 8 --layout 2x4 "
      "--spec '20 N·m, +90°' --length 60mm");
  CHECK(trial.done("show B2 --json").json()["joint"]["layout"] == "rectangle 2x4");
  trial.done("out B2/1-8 --broke Normal");
  const auto day = trial.run("out B2/1 --at 3.4.2026");
  CHECK(day.code == 2);
  CHECK_THAT(day.said(), ContainsSubstring("2026-04-03 (day first) or 2026-03-04 (month first)"));
  CHECK_THAT(trial.run("out B2/1 --at 3.3.2026").said(), ContainsSubstring("Write 2026-03-03 ("));
  const auto no_position = trial.run("out B2");
  CHECK(no_position.code == 2);
  CHECK_THAT(no_position.said(), ContainsSubstring("B2/1-8"));
  trial.done("tighten B2/1-8");
  trial.done("tighten B2/1-8 --turned 90");
  CHECK_THAT(trial.done("history").out, ContainsSubstring("turned 90°"));
}

TEST_CASE("an answer that scrolls away says once more how it stands", "[cli]") {
  Trial trial;
  set_up(trial);
  enter_cover(trial);
  const auto whole = trial.run("").out;
  trial.height = 50;
  CHECK(trial.run("").out == whole);
  trial.height = 6;
  const auto again = trial.run("").out;
  CHECK(again.starts_with(whole));
  CHECK_THAT(again.substr(whole.size()), ContainsSubstring(first_line(whole)) &&
                                             ContainsSubstring("next: boltwitness bench A1"));
}

}  // namespace first_screen_test
