// What the command line itself may not be, and how that is said.

#include <sstream>

#include "report/text.h"
#include "support/bench.h"
#include "support/catch.h"

namespace {

// A logbook with one wrench and one joint that has a specification and four positions.
void fill(Bench& bench) {
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m'");
  bench.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
}

void check_refused(Bench& bench, const std::string& command, const std::string& says) {
  INFO(command);
  const auto outcome = bench.run(command);
  CHECK(outcome.code == 2);
  CHECK(outcome.out.empty());
  CHECK_THAT(outcome.said(), ContainsSubstring(says));
}

std::size_t lines_in(Bench& bench) { return bench.done("history --json").json()["lines"].size(); }

}  // namespace

TEST_CASE("an option or argument given nothing is refused by its name", "[cli]") {
  Bench bench;
  fill(bench);
  const auto before = lines_in(bench);
  for (const auto* global : {"--log", "--by", "--at"}) {
    check_refused(bench, std::string("compare ") + global + " ''", std::string(global) + " was");
    check_refused(bench, std::string("compare ") + global + "=", std::string(global) + " was");
    check_refused(bench, std::string(global) + " ' ' compare", std::string(global) + " was");
  }
  for (const std::string option : {"--holds", "--size", "--length", "--grade", "--count",
                                   "--layout", "--after", "--spec", "--source", "--condition"}) {
    check_refused(bench, "joint J07 " + option + " ''", option + " was given nothing");
  }
  for (const std::string option :
       {"--broke", "--bag", "--note", "--length", "--size", "--grade", "--replace", "--why"}) {
    check_refused(bench, "out J06/1 " + option + " ''", option + " was given nothing");
  }
  for (const std::string option : {"--wrench", "--radius", "--restart", "--neighbours",
                                   "--prevailing", "--extension", "--wrench-length"}) {
    check_refused(bench, "found J06/1 60s 80o " + option + " ''", option + " was given nothing");
  }
  check_refused(bench, "wrench TW2 --calibrated ''", "--calibrated was given nothing");
  check_refused(bench, "start '' --machine GB-2", "FILE was given nothing");
  check_refused(bench, "strike '' --why wrong", "LINE was given nothing");
  check_refused(bench, "history ''", "ADDRESS was given nothing");
  check_refused(bench, "compare J06 ''", "JOINTS was given nothing");
  check_refused(bench, "found J06/1 '' --wrench TW2", "READINGS was given nothing");
  check_refused(bench, "convert ''", "TORQUE was given nothing");
  check_refused(bench, "bolt M12 --grade ''", "--grade was given nothing");
  CHECK(lines_in(bench) == before);
}

TEST_CASE("an environment variable that is empty counts as not set", "[cli]") {
  Bench bench;
  fill(bench);
  bench.environment["BOLTWITNESS_LOG"] = "";
  bench.environment["BOLTWITNESS_BY"] = "";
  bench.done("out J06/1");
  CHECK(bench.done("history J06/1 --json").json()["lines"].back()["by"] == "KB");
}

TEST_CASE("an option that is not known is named before what is missing", "[cli]") {
  Bench bench;
  check_refused(bench, "start --machin GB-1",
                "does not know \"--machin\"; did you mean --machine?");
  check_refused(bench, "found J06/1 60s --wrensh TW2", "does not know \"--wrensh\"");
  check_refused(bench, "found J06/1 60s -w TW2", "does not know \"-w\"");
  check_refused(bench, "start gb1.bolts", "--machine is required");
}

TEST_CASE("words too many are answered with how to write them", "[cli]") {
  Bench bench;
  check_refused(bench, "out A/9 A/10", "write A/9-10");
  check_refused(bench, "out A/9 A/3", "write A/3,9");
  check_refused(bench, "history A/9 B/10", "enter \"B/10\" by itself");
  check_refused(bench, "adapter --torque 80 Nm --length 350mm --extension 40mm", "in quotes");
  check_refused(bench, "audit J06", "audit does not know \"J06\"");
}

TEST_CASE("a torque to convert needs no quotes", "[cli]") {
  Bench bench;
  const auto quoted = bench.done("convert '80 ft lbf' --to N·m").out;
  CHECK(bench.done("convert 80 ft lbf --to N·m").out == quoted);
  CHECK(bench.done("convert 80ft-lbf --to N·m").out == quoted);
  check_refused(bench, "convert 80 90 Nm", "separator");
}

TEST_CASE("a line number that is none is refused in our own words", "[cli]") {
  Bench bench;
  fill(bench);
  for (const auto* number : {"1.5", "0", "x", "99999999999999999999", "3x"}) {
    check_refused(bench, std::string("strike ") + number + " --why wrong", "is no line number");
    check_refused(bench, std::string("out J06/1 --why wrong --replace ") + number,
                  "is no line number");
  }
  CHECK(bench.run("strike 99 --why wrong").code == 1);
}

TEST_CASE("what is far too long is never echoed whole", "[cli]") {
  Bench bench;
  fill(bench);
  const std::string endless(3000, '9');
  for (const std::string command : {"convert ",
                                    "compare ",
                                    "history ",
                                    "out ",
                                    "strike --why x ",
                                    "found J06/1 --wrench TW2 ",
                                    "found J06/1 60s --wrench ",
                                    "joint ",
                                    "joint J07 --spec ",
                                    "joint J07 --size ",
                                    "joint J06 --spec '80 N·m' --condition ",
                                    "wrench ",
                                    "wrench TW3 --range ",
                                    "bolt ",
                                    "audit ",
                                    "audit --",
                                    "",
                                    "out J06/1 --at ",
                                    "out J06/1 --by ",
                                    "out J06/1 --bag ",
                                    "found J06/1-3",
                                    "out J06/1 --broke ",
                                    "out J06/1 J06/"}) {
    INFO(command);
    const auto outcome = bench.run(command + endless);
    CHECK((outcome.code == 1 || outcome.code == 2));
    CHECK(outcome.err.size() < 600);
  }
}

TEST_CASE("messages keep to the width of the page", "[cli]") {
  Bench bench;
  fill(bench);
  for (const std::size_t width : {40U, 60U, 80U, 120U}) {
    bench.width = width;
    for (const std::string command : {"found J06/1 60 --wrench TW2", "convert 85", "joint J06",
                                      "joint J06 --count 3", "wrench TW3", "out J06/1 --brok x"}) {
      INFO(command << " at " << width);
      std::istringstream lines(bench.run(command).err);
      std::size_t number = 0;
      for (std::string line; std::getline(lines, line); ++number) {
        CHECK(report::display_width(line) <= width);
        CHECK(line.starts_with(number == 0 ? "boltwitness: " : "  "));
      }
      CHECK(number > 0);
    }
  }
}

TEST_CASE("answers keep to the width of the page", "[cli]") {
  Bench bench;
  fill(bench);
  bench.done("joint J07 --holds lid --size M12 --grade 8.8 --count 2");
  bench.done("found J06/1 60s 70s 75s 80o --wrench TW2");
  bench.done("found J07/1 60s 70s 75s 80o --wrench TW2");
  for (const std::size_t width : {40U, 60U, 80U, 120U, 200U}) {
    bench.width = width;
    for (const std::string command :
         {"compare", "compare --all-units", "audit", "sequence", "history", "--help",
          "found --help", "adapter --torque 80Nm --length 350mm --extension 40mm",
          "found J06/2 60s --wrench TW2 --next"}) {
      INFO(command << " at " << width);
      std::istringstream lines(bench.run(command).out);
      for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(report::display_width(line) <= width);
      }
    }
  }
}

TEST_CASE("no emphasis where it is not wanted or nobody sees it", "[cli]") {
  Bench bench;
  fill(bench);
  const auto has_emphasis = [&](const std::string& command) {
    return bench.done(command).out.find('\x1b') != std::string::npos;
  };
  CHECK_FALSE(has_emphasis("compare"));  // not a terminal
  bench.terminal = true;
  CHECK(has_emphasis("compare"));
  CHECK_FALSE(has_emphasis("compare --no-color"));
  CHECK_FALSE(has_emphasis("compare --json"));
  bench.environment["NO_COLOR"] = "1";
  CHECK_FALSE(has_emphasis("compare"));
}

TEST_CASE("where the current folder is gone the message says so", "[cli]") {
  Bench bench;
  fill(bench);
  const auto absolute = bench.folder().file("gb1.bolts");
  bench.folder_is_gone = true;
  for (const std::string command :
       {"compare", "audit", "out J06/1", "history", "sequence", "strike 2 --why x",
        "compare --log gb1.bolts", "start gb2.bolts --machine GB-2"}) {
    INFO(command);
    const auto outcome = bench.run(command);
    CHECK(outcome.code == 3);
    CHECK_THAT(outcome.said(), ContainsSubstring("the current folder is gone"));
  }
  bench.done("compare --log " + absolute);
  bench.done("convert 80Nm");
  bench.environment["BOLTWITNESS_LOG"] = absolute;
  bench.done("compare");
}

TEST_CASE("a line that is written but cannot be shown is named", "[cli]") {
  Bench bench;
  fill(bench);
  const auto before = lines_in(bench);
  bench.disk_is_full = true;
  const auto out = bench.run("out J06/1");
  CHECK(out.code == 3);
  CHECK_THAT(out.said(), ContainsSubstring("line 5 is written and safe"));
  const auto joint = bench.run("joint J07 --holds lid --size M8 --grade 8.8 --count 2 --spec 20Nm");
  CHECK_THAT(joint.said(), ContainsSubstring("line 6 and line 7 are written"));
  const auto read = bench.run("compare");
  CHECK(read.code == 3);
  CHECK_THAT(read.said(), ContainsSubstring("could not be written out in full"));
  bench.disk_is_full = false;
  CHECK(lines_in(bench) == before + 3);
}

TEST_CASE("a wrench needs something new to enter", "[cli]") {
  Bench bench;
  fill(bench);
  const auto before = lines_in(bench);
  check_refused(bench, "wrench TW2", "nothing new to enter for TW2");
  check_refused(bench, "wrench tw2 --replace 2 --why again", "nothing new to enter for TW2");
  CHECK(lines_in(bench) == before);
  bench.done("wrench TW2 --calibrated 2026-03-02");
}

TEST_CASE("figures that cannot be are refused", "[cli]") {
  Bench bench;
  fill(bench);
  const auto start = "start " + bench.folder().file("gb2.bolts") + " --machine GB-2 ";
  check_refused(bench, start + "--method-error 50%", "below 50%");
  check_refused(bench, "wrench TW2 --accuracy 50%", "below 50%");
  bench.done("wrench TW2 --accuracy 49.9%");
  check_refused(bench, "wrench TW2 --calibrated 2026-06-02", "lies after 2026-06-01");
  check_refused(bench, "wrench TW2 --calibrated 2026-05-02 --at 2026-05-01T12:00", "lies after");
  bench.done("wrench TW2 --calibrated 2026-06-01");
  check_refused(bench, "joint J07 --holds x --size M8 --grade 8.8 --count 2 --length 90m", "10 m");
  check_refused(bench, "adapter --torque 80Nm --length 11m --extension 40mm", "10 m");
}

TEST_CASE("help marks what a new joint needs", "[cli]") {
  Bench bench;
  bench.width = 120;
  const auto help = bench.done("joint --help").out;
  for (const auto* option : {"--holds TEXT", "--size THREAD", "--grade GRADE", "--count N"}) {
    const auto at = help.find(option);
    REQUIRE(at != std::string::npos);
    CHECK_THAT(help.substr(at, help.find('\n', at) - at),
               ContainsSubstring("a new joint needs it"));
  }
}
