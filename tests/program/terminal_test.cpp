// The guided way at a terminal: single keys, Ctrl-C, a closed window.

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/places.h"
#include "support/trial.h"
#include "words/text.h"

namespace terminal_test {

namespace {

class Cover {
 public:
  Cover() {
    trial.environment["BOLTWITNESS_LOG"] = log();
    trial.done("start " + log() + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint J06 --holds cover --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
    trial.done("out J06/1-4");
  }
  [[nodiscard]] std::string log() const { return trial.folder().file("gb1.bolts"); }
  [[nodiscard]] std::vector<std::string> guided() const {
    return {"--log", log(), "--by", "KB", "--at", "2026-06-02T09:00", "tighten", "J06"};
  }
  int done() { return trial.done("tighten --json").json()["done"].get<int>(); }

  Trial trial;
};

constexpr tcflag_t kLineMode = ICANON | ECHO | ISIG;

bool asks_for_step(TerminalProgram& program, int place) {
  return program.shows(std::to_string(place) + " of 4 in this pass") && program.asks();
}

}  // namespace

TEST_CASE("at a terminal a key counts without Enter", "[program]") {
  Cover cover;
  TerminalProgram program(cover.guided());
  REQUIRE(asks_for_step(program, 1));
  program.press("d\r");  // Enter behind a key belongs to it
  REQUIRE(asks_for_step(program, 2));
  program.press("D");
  REQUIRE(asks_for_step(program, 3));
  program.press("x");
  REQUIRE(program.shows("\"x\" is no key here; d v k u m q ? are"));
  REQUIRE(program.asks());
  program.press("u");
  REQUIRE(asks_for_step(program, 2));
  program.press("q");
  REQUIRE(program.shows("stopped"));
  CHECK(program.ended() == 0);
  CHECK(program.screen().find("Enter is no key") == std::string::npos);
  CHECK(cover.done() == 1);
}

TEST_CASE("what another terminal wrote meanwhile is told and not done a second time", "[program]") {
  Cover cover;
  TerminalProgram program(cover.guided());
  REQUIRE(asks_for_step(program, 1));
  cover.trial.done("tighten J06/1");
  program.press("d");
  REQUIRE(program.shows("was written elsewhere"));
  REQUIRE(asks_for_step(program, 2));
  // A line that leaves the step as it was does not stand in the way.
  cover.trial.done("wrench TW4 --range '5..20 N·m' --graduation '0.5 N·m' --calibrated 2026-03-02");
  program.press("d");
  REQUIRE(asks_for_step(program, 3));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cover.done() == 2);
}

TEST_CASE("Ctrl-C and Ctrl-D stop at a key and keep what was done", "[program]") {
  for (const std::string stop : {"\x03", "\x04"}) {
    Cover cover;
    TerminalProgram program(cover.guided());
    REQUIRE(asks_for_step(program, 1));
    program.press("d");
    REQUIRE(asks_for_step(program, 2));
    program.press(stop);
    REQUIRE(program.shows("stopped; the next call goes on at this step"));
    CHECK(program.ended() == 0);
    CHECK((program.settings().c_lflag & kLineMode) == kLineMode);
    CHECK(cover.done() == 1);
  }
}

TEST_CASE("Ctrl-C and Ctrl-D at a question for a line record nothing", "[program]") {
  for (const std::string stop : {"\x03", "\x04"}) {
    for (const std::string typed : {"", "TW", "TW9\r", "TW2\r", "TW2\r58"}) {
      if (stop == "\x04" && !typed.empty() && !typed.ends_with('\r')) continue;  // rubs out there
      INFO(typed);
      Cover cover;
      TerminalProgram program(cover.guided());
      REQUIRE(asks_for_step(program, 1));
      program.press("v");
      REQUIRE(program.asks("wrench (TW2): "));
      program.press(typed);
      if (typed == "TW9\r") {
        REQUIRE(program.shows("there is no wrench \"TW9\""));
        REQUIRE(program.asks("wrench (TW2): "));
      } else if (typed.starts_with("TW2\r")) {
        REQUIRE(program.asks("TW2 set to, in N·m: "));
      }
      program.press(stop);
      REQUIRE(program.shows("nothing was recorded"));
      REQUIRE(program.shows("stopped; the next call goes on at this step"));
      CHECK(program.ended() == 0);
      CHECK((program.settings().c_lflag & kLineMode) == kLineMode);
      CHECK(cover.done() == 0);
    }
  }
}

TEST_CASE("a closed window loses nothing that was answered", "[program]") {
  Cover cover;
  {
    TerminalProgram program(cover.guided());
    REQUIRE(asks_for_step(program, 1));
    program.press("d");
    REQUIRE(asks_for_step(program, 2));
    program.hang_up();
    program.ended();
  }
  CHECK(cover.done() == 1);
  const auto next = cover.trial.done("tighten --json").json()["next"]["position"].get<int>();
  TerminalProgram again(cover.guided());
  CHECK(again.shows("2 of 4 in this pass"));
  CHECK(next == 3);
}

TEST_CASE("a closed pipe leaves nothing half written while tightening", "[program]") {
  for (const int lines : {1, 12, 20, 40, 200}) {
    INFO(lines);
    Cover cover;
    std::string command =
        "printf 'd\\nd\\nv\\nTW2\\n58\\nk\\nstud bent\\n' | '" BOLTWITNESS_PROGRAM "'";
    for (const auto& argument : cover.guided()) command += " '" + argument + "'";
    command += " 2>/dev/null | head -n " + std::to_string(lines) + " >/dev/null";
    CHECK(std::system(command.c_str()) == 0);
    const auto standing = cover.trial.done("tighten --json").json();
    const int done = standing["done"].get<int>();
    const int left_out = standing["left_out"].get<int>();
    CHECK(done <= 3);
    CHECK((left_out == 0 || (left_out == 1 && done == 3)));
    if (lines == 200) CHECK(left_out == 1);
  }
}

TEST_CASE("the guided way fits every width and needs no colour", "[program]") {
  for (const unsigned short columns : std::vector<unsigned short>{60, 73, 80, 137, 200}) {
    INFO(columns);
    Cover cover;
    auto arguments = cover.guided();
    arguments.insert(arguments.begin(), "--no-color");
    TerminalProgram program(arguments, columns);
    REQUIRE(asks_for_step(program, 1));
    program.press("?");
    REQUIRE(program.shows("quit; all of it is kept"));
    REQUIRE(program.asks());
    program.press("q");
    program.ended();
    CHECK(program.screen().find("\x1b[1m") == std::string::npos);
    CHECK(program.screen().find("\x1b[3") == std::string::npos);
    std::size_t line_start = 0;
    for (std::size_t i = 0; i < program.screen().size(); ++i) {
      if (program.screen()[i] != '\n') continue;
      auto line = program.screen().substr(line_start, i - line_start);
      std::erase(line, '\r');
      INFO(line);
      CHECK(words::display_width(line) <= std::min<std::size_t>(columns, 100));
      line_start = i + 1;
    }
  }
}

TEST_CASE("the figures are large as the terminal can show them", "[program]") {
  const auto shown = [](const char* terminal, const char* locale) {
    Cover cover;
    TerminalProgram program(cover.guided(), 80, terminal, locale);
    REQUIRE(asks_for_step(program, 1));
    program.press("q");
    program.ended();
    return program.screen();
  };
  const auto blocks = shown("xterm", "C.UTF-8");
  CHECK_THAT(blocks, ContainsSubstring("██") && ContainsSubstring("TW2 set to"));
  const auto plain_letters = shown("xterm", "C");
  CHECK_THAT(plain_letters, ContainsSubstring("|___|") && !ContainsSubstring("█"));
  const auto dumb = shown("dumb", "C.UTF-8");
  CHECK_THAT(dumb, ContainsSubstring("TW2 set to 56 N·m") && !ContainsSubstring("█") &&
                       !ContainsSubstring("|___|"));
}

TEST_CASE("a wait counts down live at a terminal, and Ctrl-C leaves it", "[program]") {
  Cover cover;
  // A little behind the clock of the program: what lies ahead of that does not count yet.
  cover.trial.now =
      std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()) -
      std::chrono::seconds(5);
  cover.trial.done("hold-point HV --what 'rails dead' --wait 10min");
  cover.trial.done("hold-point HV --begin");
  TerminalProgram program({"--log", cover.log(), "hold-point", "HV"});
  REQUIRE(program.shows("9 min"));
  REQUIRE(program.shows("of the wait left\r"));
  // Meanwhile the logbook is free for others.
  cover.trial.done("hold-point HV --close");
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
}

}  // namespace terminal_test
