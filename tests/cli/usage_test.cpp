// What the command line itself may not be, and how that is said.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "cli/commands.h"
#include "cli/sought_command.h"
#include "support/catch.h"
#include "support/trial.h"
#include "words/text.h"

namespace usage_test {

namespace {

// A logbook with one wrench and one joint that has a specification and four positions.
void fill(Trial& trial) {
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m'");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
}

void check_refused(Trial& trial, const std::string& command, const std::string& says) {
  INFO(command);
  const auto outcome = trial.run(command);
  CHECK(outcome.code == 2);
  CHECK(outcome.out.empty());
  CHECK_THAT(outcome.said(), ContainsSubstring(says));
}

using TitledTerms = std::pair<std::string, std::vector<std::string>>;

// What the help of a command lists, by the titles that it stands under.
std::vector<TitledTerms> titled_terms(Trial& trial, const std::string& command) {
  std::istringstream page(trial.done(command + " --help").out);
  std::vector<TitledTerms> groups;
  for (std::string line; std::getline(page, line) && line != "Examples";) {
    if (line.starts_with("  boltwitness")) {  // how it is typed, above all that is listed
      groups.push_back({});
    } else if (!groups.empty() && !line.empty() && line.front() != ' ') {
      groups.push_back({line, {}});
    } else if (!groups.empty() && line.starts_with("  ") && line.find_first_not_of(' ') == 2) {
      groups.back().second.push_back(line.substr(2, line.find("  ", 2) - 2));
    }
  }
  return groups;
}

std::size_t lines_in(Trial& trial) { return trial.done("history --json").json()["lines"].size(); }

}  // namespace

TEST_CASE("an option or argument given nothing is refused by its name", "[cli]") {
  Trial trial;
  fill(trial);
  const auto before = lines_in(trial);
  for (const auto* global : {"--log", "--by", "--at"}) {
    check_refused(trial, std::string("compare ") + global + " ''", std::string(global) + " was");
    check_refused(trial, std::string("compare ") + global + "=", std::string(global) + " was");
    check_refused(trial, std::string(global) + " ' ' compare", std::string(global) + " was");
  }
  for (const std::string option : {"--holds", "--size", "--length", "--grade", "--count",
                                   "--layout", "--after", "--spec", "--source", "--condition"}) {
    check_refused(trial, "joint J07 " + option + " ''", option + " was given nothing");
  }
  for (const std::string option :
       {"--broke", "--bag", "--note", "--length", "--size", "--grade", "--replace", "--why"}) {
    check_refused(trial, "out J06/1 " + option + " ''", option + " was given nothing");
  }
  for (const std::string option : {"--wrench", "--radius", "--restart", "--neighbours",
                                   "--prevailing", "--extension", "--wrench-length"}) {
    check_refused(trial, "found J06/1 60s 80o " + option + " ''", option + " was given nothing");
  }
  check_refused(trial, "wrench TW2 --calibrated ''", "--calibrated was given nothing");
  check_refused(trial, "start '' --machine GB-2", "FILE was given nothing");
  check_refused(trial, "strike '' --why wrong", "LINE was given nothing");
  check_refused(trial, "history ''", "JOINT/POSITIONS was given nothing");
  check_refused(trial, "compare J06 ''", "JOINT was given nothing");
  check_refused(trial, "found J06/1 '' --wrench TW2", "READING was given nothing");
  check_refused(trial, "convert ''", "TORQUE was given nothing");
  check_refused(trial, "bolt M12 --grade ''", "--grade was given nothing");
  CHECK(lines_in(trial) == before);
}

TEST_CASE("an environment variable that is empty counts as not set", "[cli]") {
  Trial trial;
  fill(trial);
  trial.environment["BOLTWITNESS_LOG"] = "";
  trial.environment["BOLTWITNESS_BY"] = "";
  trial.done("out J06/1");
  CHECK(trial.done("history J06/1 --json").json()["lines"].back()["by"] == "KB");
}

TEST_CASE("an option that is not known is named before what is missing", "[cli]") {
  Trial trial;
  check_refused(trial, "start --machin GB-1",
                "does not know \"--machin\"; did you mean --machine?");
  check_refused(trial, "found J06/1 60s --wrensh TW2", "does not know \"--wrensh\"");
  check_refused(trial, "found J06/1 60s -w TW2", "does not know \"-w\"");
  check_refused(trial, "start gb1.bolts", "--machine is required");
}

TEST_CASE("words too many are answered with how to write them", "[cli]") {
  Trial trial;
  check_refused(trial, "out A/9 A/10", "write A/9-10");
  check_refused(trial, "out A/9 A/3", "write A/3,9");
  check_refused(trial, "history A/9 B/10", "enter \"B/10\" by itself");
  check_refused(trial, "adapter --torque 80 Nm --length 350mm --extension 40mm", "in quotes");
  check_refused(trial, "audit J06", "audit does not know \"J06\"");
}

TEST_CASE("a torque to convert needs no quotes", "[cli]") {
  Trial trial;
  const auto quoted = trial.done("convert '80 ft lbf' --to N·m").out;
  CHECK(trial.done("convert 80 ft lbf --to N·m").out == quoted);
  CHECK(trial.done("convert 80ft-lbf --to N·m").out == quoted);
  check_refused(trial, "convert 80 90 Nm", "separator");
}

TEST_CASE("a line number that is none is refused in our own words", "[cli]") {
  Trial trial;
  fill(trial);
  for (const auto* number : {"1.5", "0", "x", "99999999999999999999", "3x"}) {
    check_refused(trial, std::string("strike ") + number + " --why wrong", "is no line number");
    check_refused(trial, std::string("out J06/1 --why wrong --replace ") + number,
                  "is no line number");
  }
  CHECK(trial.run("strike 99 --why wrong").code == 1);
}

TEST_CASE("what is far too long is never echoed whole", "[cli]") {
  Trial trial;
  fill(trial);
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
    const auto outcome = trial.run(command + endless);
    CHECK((outcome.code == 1 || outcome.code == 2));
    CHECK(outcome.err.size() < 600);
  }
}

TEST_CASE("messages keep to the width of the page", "[cli]") {
  Trial trial;
  fill(trial);
  for (const std::size_t width : {40U, 60U, 80U, 120U}) {
    trial.width = width;
    for (const std::string command : {"found J06/1 60 --wrench TW2", "convert 85", "joint J06",
                                      "joint J06 --count 3", "wrench TW3", "out J06/1 --brok x"}) {
      INFO(command << " at " << width);
      std::istringstream lines(trial.run(command).err);
      std::size_t number = 0;
      for (std::string line; std::getline(lines, line); ++number) {
        CHECK(words::display_width(line) <= width);
        CHECK(line.starts_with(number == 0 ? "boltwitness: " : "  "));
      }
      CHECK(number > 0);
    }
  }
}

TEST_CASE("answers keep to the width of the page", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("joint J07 --holds lid --size M12 --grade 8.8 --count 2");
  trial.done("found J06/1 60s 70s 75s 80o --wrench TW2");
  trial.done("found J07/1 60s 70s 75s 80o --wrench TW2");
  for (const std::size_t width : {40U, 60U, 80U, 120U, 200U}) {
    trial.width = width;
    for (const std::string command :
         {"compare", "compare --all-units", "audit", "sequence", "history", "--help",
          "found --help", "adapter --torque 80Nm --length 350mm --extension 40mm",
          "found J06/2 60s --wrench TW2 --next"}) {
      INFO(command << " at " << width);
      std::istringstream lines(trial.run(command).out);
      for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(words::display_width(line) <= width);
      }
    }
  }
}

TEST_CASE("no emphasis where it is not wanted or nobody sees it", "[cli]") {
  Trial trial;
  fill(trial);
  const auto has_emphasis = [&](const std::string& command) {
    return trial.done(command).out.find('\x1b') != std::string::npos;
  };
  CHECK_FALSE(has_emphasis("compare"));  // not a terminal
  trial.terminal = true;
  CHECK(has_emphasis("compare"));
  CHECK_FALSE(has_emphasis("compare --no-color"));
  CHECK_FALSE(has_emphasis("compare --json"));
  trial.environment["NO_COLOR"] = "1";
  CHECK_FALSE(has_emphasis("compare"));
}

TEST_CASE("where the current folder is gone the message says so", "[cli]") {
  Trial trial;
  fill(trial);
  const auto absolute = trial.folder().file("gb1.bolts");
  trial.folder_is_gone = true;
  for (const std::string command :
       {"compare", "audit", "out J06/1", "history", "sequence", "strike 2 --why x",
        "compare --log gb1.bolts", "start gb2.bolts --machine GB-2"}) {
    INFO(command);
    const auto outcome = trial.run(command);
    CHECK(outcome.code == 3);
    CHECK_THAT(outcome.said(), ContainsSubstring("the current folder is gone"));
  }
  trial.done("compare --log " + absolute);
  trial.done("convert 80Nm");
  trial.environment["BOLTWITNESS_LOG"] = absolute;
  trial.done("compare");
}

TEST_CASE("a line that is written but cannot be shown is named", "[cli]") {
  Trial trial;
  fill(trial);
  const auto before = lines_in(trial);
  trial.disk_is_full = true;
  const auto out = trial.run("out J06/1");
  CHECK(out.code == 3);
  CHECK_THAT(out.said(), ContainsSubstring("line 5 is written and safe"));
  const auto joint = trial.run("joint J07 --holds lid --size M8 --grade 8.8 --count 2 --spec 20Nm");
  CHECK_THAT(joint.said(), ContainsSubstring("line 6 and line 7 are written"));
  const auto read = trial.run("compare");
  CHECK(read.code == 3);
  CHECK_THAT(read.said(), ContainsSubstring("could not be written out in full"));
  trial.disk_is_full = false;
  CHECK(lines_in(trial) == before + 3);
}

TEST_CASE("a wrench needs something new to enter", "[cli]") {
  Trial trial;
  fill(trial);
  const auto before = lines_in(trial);
  check_refused(trial, "wrench TW2", "nothing new to enter for TW2");
  check_refused(trial, "wrench tw2 --replace 2 --why again", "nothing new to enter for TW2");
  CHECK(lines_in(trial) == before);
  trial.done("wrench TW2 --calibrated 2026-03-02");
}

TEST_CASE("figures that cannot be are refused", "[cli]") {
  Trial trial;
  fill(trial);
  const auto start = "start " + trial.folder().file("gb2.bolts") + " --machine GB-2 ";
  check_refused(trial, start + "--method-error 50%", "below 50%");
  check_refused(trial, "wrench TW2 --accuracy 50%", "below 50%");
  trial.done("wrench TW2 --accuracy 49.9%");
  check_refused(trial, "wrench TW2 --calibrated 2026-06-02", "lies after 2026-06-01");
  check_refused(trial, "wrench TW2 --calibrated 2026-05-02 --at 2026-05-01T12:00", "lies after");
  trial.done("wrench TW2 --calibrated 2026-06-01");
  check_refused(trial, "joint J07 --holds x --size M8 --grade 8.8 --count 2 --length 90m", "10 m");
  check_refused(trial, "adapter --torque 80Nm --length 11m --extension 40mm", "10 m");
}

TEST_CASE("help marks what a new joint needs", "[cli]") {
  Trial trial;
  trial.width = 120;
  const auto help = trial.done("joint --help").out;
  for (const auto* option : {"--holds TEXT", "--size THREAD", "--grade GRADE", "--count N"}) {
    const auto at = help.find(option);
    REQUIRE(at != std::string::npos);
    CHECK_THAT(help.substr(at, help.find('\n', at) - at),
               ContainsSubstring("a new joint needs it"));
  }
}

TEST_CASE("what is asked in the wrong place is answered with the complete command", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
  trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
  trial.done("joint J08 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  CHECK_THAT(trial.run("next").said(),
             ContainsSubstring("\"boltwitness\" alone tells the next step"));
  CHECK_THAT(trial.run("help J08").said(), ContainsSubstring("\"boltwitness show J08\""));
  const auto wrench = trial.run("wrench J08");
  CHECK(wrench.code == 1);
  CHECK_THAT(wrench.said(), ContainsSubstring("\"boltwitness show J08\""));
}

TEST_CASE("help takes the words that one looks for, and says which page it is", "[cli]") {
  Trial trial;
  const auto units = trial.done("help Units").out;
  CHECK(units.starts_with("\"Units\" is on the page torques, boltwitness help torques:\n\n"));
  CHECK(units.ends_with(trial.done("help torques").out));
  CHECK(trial.done("help TORQUES").out == trial.done("help torques").out);
  CHECK(trial.done("help found torque").out == trial.done("help found-torque").out);
  CHECK(trial.done("help Hold Point").out == trial.done("help hold-point").out);
  CHECK(trial.done("help exit codes --json").json()["name"] == "scripts");
  check_refused(trial, "help glosary", "did you mean glossary?");
  check_refused(trial, "help found torqe", "did you mean found-torque?");
  check_refused(trial, "help weather", "\"boltwitness help\" lists the pages");
}

TEST_CASE("no title of a help has more than eight options under it", "[cli]") {
  Trial trial;
  trial.width = 200;
  for (const auto& part : cli::command_parts()) {
    for (const auto& command : part.commands) {
      INFO(command.name);
      for (const auto& [title, terms] : titled_terms(trial, std::string(command.name))) {
        INFO(title);
        CHECK(terms.size() <= 8);
        CHECK((title.empty() || !terms.empty()));
      }
    }
  }
}

TEST_CASE("options that belong together stand under one title", "[cli]") {
  Trial trial;
  trial.width = 200;
  const std::vector<std::string> every = {"-h, --help", "--log, --by, --at, --json, --no-color"};
  const std::vector<std::string> correction = {"--replace LINE", "--why TEXT",
                                               "--without OPTION ..."};
  const std::vector<std::string> adapter = {"--extension LENGTH", "--wrench-length LENGTH",
                                            "--adapter-angle DEGREES"};
  for (const std::string command :
       {"joint", "wrench", "out", "found", "tighten", "stripe", "recheck", "photo", "hold-point"}) {
    INFO(command);
    const auto groups = titled_terms(trial, command);
    CHECK(groups.back() == TitledTerms{"Of every command", every});
    CHECK(std::ranges::find(groups, TitledTerms{"To correct a line", correction}) != groups.end());
  }
  for (const std::string command : {"found", "tighten", "sequence"}) {
    INFO(command);
    const auto groups = titled_terms(trial, command);
    CHECK(std::ranges::find(groups, TitledTerms{"Through a crowfoot or extension", adapter}) !=
          groups.end());
  }
  const auto sequence = titled_terms(trial, "sequence");
  CHECK(std::ranges::find(sequence, TitledTerms{"As a page",
                                                {"--html", "--out FILE", "--page SIZE",
                                                 "--replace-file"}}) != sequence.end());
  // What belongs to no other comes first.
  CHECK(titled_terms(trial, "found").front() ==
        TitledTerms{"", {"JOINT/POSITION", "READING ...", "--wrench NAME", "--parts", "--next"}});
  CHECK(titled_terms(trial, "convert").front() == TitledTerms{"", {"TORQUE", "--to UNIT"}});
}

TEST_CASE("a message names the words of a command as its help does", "[cli]") {
  Trial trial;
  fill(trial);
  trial.width = 200;
  check_refused(trial, "found --json", "found: JOINT/POSITION is required");
  check_refused(trial, "out", "out: JOINT/POSITIONS is required");
  check_refused(trial, "stripe --wiped", "stripe: JOINT/POSITIONS is required");
  check_refused(trial, "recheck J06/1 aligned --whole", "JOINT/POSITIONS");
  // Given nothing, each word is named as the line of usage has it.
  for (const auto& part : cli::command_parts()) {
    for (const auto& command : part.commands) {
      INFO(command.name);
      const auto said = trial.run(std::string(command.name) + " ''").said();
      const auto end = said.find(" was given nothing");
      if (end == std::string::npos) continue;  // it takes none
      const auto named = said.substr(0, end).substr(std::string("boltwitness: ").size());
      const auto help = trial.done(std::string(command.name) + " --help").out;
      const auto usage = help.find("  boltwitness ");
      const auto line = help.substr(usage, help.find('\n', usage) - usage);
      INFO(line);
      CHECK((line.find(' ' + named) != std::string::npos ||
             line.find(" [" + named) != std::string::npos));
    }
  }
}

TEST_CASE("help of a command that is not there is no help", "[cli]") {
  Trial trial;
  check_refused(trial, "nosuch --help", "\"boltwitness --help\" lists them");
  check_refused(trial, "comparr --help", "did you mean compare?");
  check_refused(trial, "--help J06", "\"boltwitness show J06\"");
  CHECK_THAT(trial.done("--help").out, ContainsSubstring("boltwitness COMMAND [options]"));
  CHECK_THAT(trial.done("compare J06 --help").out, ContainsSubstring("boltwitness compare"));
}

TEST_CASE("a joint asked for is not answered with its position as if it were none", "[cli]") {
  Trial trial;
  fill(trial);
  for (const std::string command : {"compare", "sequence", "labels", "sheet"}) {
    check_refused(trial, command + " j06/3",
                  "\"j06/3\" names positions; whole joints are taken here, such as j06; "
                  "\"boltwitness show j06/03\" shows one position");
    check_refused(trial, command + " J06 J06/2-4", "\"boltwitness show J06/02\"");
    CHECK_THAT(trial.run(command + " J07/3").said(), ContainsSubstring("there is no joint"));
  }
}

TEST_CASE("a command looked for under another name leads to the one there is", "[cli]") {
  Trial trial;
  fill(trial);
  for (const auto& [typed, leads_to] :
       std::vector<std::pair<std::string, std::string>>{{"restore", "help copies"},
                                                        {"undo", "boltwitness strike"},
                                                        {"delete 3", "boltwitness strike"},
                                                        {"EDIT 3", "--replace LINE"},
                                                        {"next", "alone tells the next step"},
                                                        {"calibration", "help wrenches"},
                                                        {"security", "help threats"}}) {
    check_refused(trial, typed, "there is no command");
    check_refused(trial, typed, leads_to);
  }
  // A slip of the finger is still one.
  check_refused(trial, "comparr", "did you mean compare?");
  check_refused(trial, "help undo", "boltwitness strike");
}

TEST_CASE("what stands in for a command is one that there is", "[cli]") {
  Trial trial;
  static const std::regex kCommand("boltwitness ([a-z-]+)( [a-z]+)?");
  const auto answers = [&](const std::string& typed) { return trial.run(typed).code == 0; };
  for (const auto& [words, instead] : cli::sought_commands()) {
    for (const auto& word : words_of(std::string(words))) {
      INFO(word);
      CHECK_FALSE(answers(word + " --help"));
    }
    const std::string text(instead);
    for (auto match = std::sregex_iterator(text.begin(), text.end(), kCommand);
         match != std::sregex_iterator(); ++match) {
      INFO(match->str());
      CHECK(answers((*match)[1] == "help" ? "help" + (*match)[2].str()
                                          : (*match)[1].str() + " --help"));
    }
  }
}

TEST_CASE("what is missing for a first test is named with what gives it", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
  trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
  check_refused(trial, "joint J08 --holds cap --torque '80 N·m'", "what is specified is --spec");
  check_refused(trial, "joint J08 --holds cap --torque=80Nm", "what is specified is --spec");
  trial.done("joint J08 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  CHECK_THAT(trial.run("status").told(), ContainsSubstring("boltwitness wrench --help"));
  check_refused(trial, "found J08/1 70s 80o", "\"boltwitness wrench\" lists");
}

TEST_CASE("a hyphen for a table writes everything to the output", "[cli]") {
  Trial trial;
  fill(trial);
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  CHECK(trial.done("export -").out == trial.done("export").out);
  CHECK(trial.done("export - --json-lines").out == trial.done("export --json-lines").out);
  check_refused(trial, "export - --to other.json", "there is no table");
}

}  // namespace usage_test
