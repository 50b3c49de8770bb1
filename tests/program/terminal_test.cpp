// The guided way at a terminal: single keys, Ctrl-C, a closed window.

#include <chrono>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/trial.h"

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

}  // namespace

TEST_CASE("at a terminal a key counts without Enter", "[program]") {
  Cover cover;
  TerminalProgram program(cover.guided());
  REQUIRE(program.shows("q  quit"));
  program.press("d");
  REQUIRE(program.shows("2 of 4 in this pass"));
  program.press("d");
  REQUIRE(program.shows("3 of 4 in this pass"));
  program.press("q");
  REQUIRE(program.shows("stopped"));
  CHECK(program.ended() == 0);
  CHECK(cover.done() == 2);
}

TEST_CASE("Ctrl-C stops at a key, keeps what was done, leaves the terminal as it was",
          "[program]") {
  Cover cover;
  TerminalProgram program(cover.guided());
  REQUIRE(program.shows("q  quit"));
  program.press("d");
  REQUIRE(program.shows("2 of 4 in this pass"));
  REQUIRE(program.shows("q  quit"));
  program.press("\x03");
  // Between two keys the signal itself may end it, with the same outcome.
  CHECK(program.ended().value_or(0) == 0);
  CHECK((program.settings().c_lflag & kLineMode) == kLineMode);
  CHECK(cover.done() == 1);
}

TEST_CASE("a closed window loses nothing that was answered", "[program]") {
  Cover cover;
  {
    TerminalProgram program(cover.guided());
    REQUIRE(program.shows("q  quit"));
    program.press("d");
    REQUIRE(program.shows("2 of 4 in this pass"));
    program.hang_up();
    program.ended();
  }
  CHECK(cover.done() == 1);
  const auto next = cover.trial.done("tighten --json").json()["next"]["position"].get<int>();
  TerminalProgram again(cover.guided());
  CHECK(again.shows("2 of 4 in this pass"));
  CHECK(next == 3);
}

TEST_CASE("the guided way fits a narrow terminal and needs no colour", "[program]") {
  Cover cover;
  auto arguments = cover.guided();
  arguments.insert(arguments.begin(), "--no-color");
  TerminalProgram program(arguments, 60);
  REQUIRE(program.shows("q  quit"));
  program.press("q");
  program.ended();
  CHECK(program.screen().find('\x1b') == std::string::npos);
  std::size_t line_start = 0;
  for (std::size_t i = 0; i < program.screen().size(); ++i) {
    if (program.screen()[i] != '\n') continue;
    CHECK(i - line_start <= 62);  // two bytes more for a middle dot and the carriage return
    line_start = i + 1;
  }
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
