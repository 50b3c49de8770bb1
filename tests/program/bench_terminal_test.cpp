// The guided teardown at a terminal: keys that answer at once, editing, and every way it can end.

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <thread>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/places.h"
#include "support/trial.h"
#include "words/text.h"

namespace bench_terminal_test {

namespace {

class Cap {
 public:
  Cap() {
    trial.environment["BOLTWITNESS_LOG"] = log();
    trial.done("start " + log() + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
  }
  [[nodiscard]] std::string log() const { return trial.folder().file("gb1.bolts"); }
  [[nodiscard]] std::vector<std::string> guided(const std::string& joint = "J06") const {
    return {"--log", log(), "--by", "KB", "--at", "2026-06-02T09:00", "bench", joint};
  }

  // What the lines since the set-up say, struck ones marked.
  std::vector<std::string> lines() {
    const auto history = trial.done("history --json").json();
    std::vector<std::string> says;
    for (const auto& line : history["lines"]) {
      if (line["line"].get<int>() <= 4) continue;
      says.push_back((line["struck"].is_null() ? "" : "STRUCK ") + line["says"].get<std::string>());
    }
    return says;
  }

  Trial trial;
};

using Lines = std::vector<std::string>;

constexpr tcflag_t kLineMode = ICANON | ECHO | ISIG;

bool asks(TerminalProgram& program, const std::string& keys) {
  return program.shows(keys + "; ? for more") && program.asks();
}
bool asks_how_it_broke(TerminalProgram& program) { return asks(program, "empty"); }
bool asks_for_mark(TerminalProgram& program) { return asks(program, "n Enter no move"); }

bool is_as_it_was(const TerminalProgram& program) {
  return (program.settings().c_lflag & kLineMode) == kLineMode &&
         program.settings().c_cc[VINTR] == 3;
}

}  // namespace

TEST_CASE("at the bench a key answers without Enter, and Enter takes what is proposed",
          "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(program.shows("J06/01, 1 of 4: draw the mark"));
  REQUIRE(asks_how_it_broke(program));
  program.press("t\r");
  REQUIRE(program.shows("next 48 N·m on TW2"));
  REQUIRE(asks_for_mark(program));
  program.press("\r");
  REQUIRE(program.shows("set to 48 N·m on TW2"));
  REQUIRE(asks_for_mark(program));
  program.press("s");
  REQUIRE(program.shows("next 52 N·m on TW2"));
  REQUIRE(asks_for_mark(program));
  program.press("O");
  REQUIRE(program.shows("J06/02, 2 of 4"));
  REQUIRE(asks_how_it_broke(program));
  program.press("u");
  REQUIRE(program.shows("line 7 struck"));
  REQUIRE(program.shows("J06/01, 1 of 4, next 52 N·m on TW2"));
  REQUIRE(asks_for_mark(program));
  program.press("q");
  REQUIRE(program.shows("stopped; bench J06 goes on here"));
  CHECK(program.ended() == 0);
  CHECK(cap.lines() ==
        Lines{"J06/01 out, broke tight", "J06/01 pull 48s on TW2", "STRUCK J06/01 48s 52o on TW2"});
}

TEST_CASE("a line at the bench is edited, called again, and may begin with a key's letter",
          "[program][bench]") {
  Cap cap;
  cap.trial.done("joint S1 --holds seat --size M8 --grade 8.8 --count 2 --spec '20 N·m'");
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("J06-3 60s 70x\x7fo TW2\r");  // x rubbed out
  REQUIRE(program.shows("J06/03 60s 70o on TW2"));
  REQUIRE(asks_how_it_broke(program));
  // The line before; to its front, on behind the 3, rubbed out for a 4.
  program.press(std::string("\x1b[A\x01\x06\x06\x06\x06\x06\x7f") + "4\r");
  REQUIRE(program.shows("J06/04 60s 70o on TW2"));
  REQUIRE(asks_how_it_broke(program));
  program.press("s1\r");
  REQUIRE(program.shows("S1/01, 1 of 2"));
  REQUIRE(asks_how_it_broke(program));
  program.press("m");
  REQUIRE(program.shows("no mark drawn;"));
  REQUIRE(asks_how_it_broke(program));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cap.lines().size() == 4);
}

TEST_CASE("Enter behind a key that has answered records nothing", "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("e\r");
  REQUIRE(program.shows("J06/02, 2 of 4"));
  REQUIRE(asks_how_it_broke(program));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cap.lines() == Lines{"J06/01 found empty"});
}

TEST_CASE("Enter pressed once the prompt was read is an answer of its own", "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("e");
  REQUIRE(program.shows("J06/02, 2 of 4"));
  REQUIRE(asks_how_it_broke(program));
  std::this_thread::sleep_for(std::chrono::milliseconds(350));
  program.press("\r");
  REQUIRE(asks_for_mark(program));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cap.lines() == Lines{"J06/01 found empty", "J06/02 out, broke normal"});
}

TEST_CASE("a guide does not go on in what was put in the place of its logbook",
          "[program][bench]") {
  Cap cap;
  const auto beside = cap.trial.folder().file("beside.bolts");
  std::filesystem::copy_file(cap.log(), beside);
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("e");
  REQUIRE(program.shows("J06/02, 2 of 4"));
  REQUIRE(asks_how_it_broke(program));
  std::string told;
  SECTION("another logbook") {
    Cap other;
    std::filesystem::remove(beside);
    std::filesystem::copy_file(other.log(), beside);
    std::filesystem::rename(beside, cap.log());
    told = "another logbook lies at";
  }
  SECTION("a copy that is older") {
    std::filesystem::rename(beside, cap.log());
    told = "a copy of the logbook without line 5 lies at";
  }
  SECTION("nothing") {
    std::filesystem::remove(cap.log());
    std::filesystem::rename(beside, cap.log() + ".kept");
    told = "there is no logbook";
  }
  program.press("e");
  CHECK(program.shows(told));
  CHECK(program.ended() == 3);
  if (std::filesystem::exists(cap.log())) CHECK(cap.lines().empty());
}

TEST_CASE("Enter typed before the next prompt was there belongs to the key, however long it takes",
          "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  {
    auto logbook = logbook::Logbook::open_to_write(cap.log());
    logbook::Recording held(
        logbook, {"KB", "00000000-0000-4000-8000-000000000001", cap.trial.now, cap.trial.now});
    program.press("e\r");
    std::this_thread::sleep_for(std::chrono::milliseconds(700));
  }
  REQUIRE(program.shows("J06/02, 2 of 4"));
  REQUIRE(asks_how_it_broke(program));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cap.lines() == Lines{"J06/01 found empty"});
}

TEST_CASE("an offset in degrees passes through the editor", "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("\r");
  REQUIRE(asks_for_mark(program));
  program.press("60s 6°\r");
  REQUIRE(program.shows("J06/01 pull 60s 6° on TW2"));
  REQUIRE(asks_for_mark(program));
  program.press("\x04");  // Ctrl-D
  REQUIRE(program.shows("stopped"));
  CHECK(program.ended() == 0);
  CHECK(is_as_it_was(program));
  CHECK(cap.lines().back() == "J06/01 pull 60s 6° on TW2");
}

TEST_CASE("Ctrl-C at the bench stops, keeps every answer, leaves the terminal as it was",
          "[program][bench]") {
  Cap cap;
  for (const std::string half_typed : {"", "75", "J06-3 60s"}) {
    TerminalProgram program(cap.guided());
    REQUIRE((half_typed.empty() ? asks_how_it_broke(program) : asks_for_mark(program)));
    if (half_typed.empty()) {
      program.press("\r");
      REQUIRE(asks_for_mark(program));
      program.press("s");
      REQUIRE(program.shows("next 52 N·m"));
      REQUIRE(asks_for_mark(program));
    }
    program.press(half_typed + "\x03");
    REQUIRE(program.shows("stopped; bench J06 goes on here"));
    CHECK(program.ended() == 0);
    CHECK(is_as_it_was(program));
  }
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "J06/01 pull 48s on TW2"});
}

TEST_CASE("a closed window at the bench loses nothing that was answered", "[program][bench]") {
  Cap cap;
  {
    TerminalProgram program(cap.guided());
    REQUIRE(asks_how_it_broke(program));
    program.press("\r");
    REQUIRE(asks_for_mark(program));
    program.press("s");
    REQUIRE(program.shows("next 52 N·m"));
    program.hang_up();
    program.ended();
  }
  TerminalProgram again(cap.guided());
  REQUIRE(again.shows("next 52 N·m on TW2"));
  REQUIRE(again.shows("so far 48s"));
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "J06/01 pull 48s on TW2"});
}

TEST_CASE("Ctrl-C and Ctrl-D at bag and note record nothing", "[program][bench]") {
  Cap cap;
  for (const std::string stop : {"\x03", "\x04"}) {
    for (const std::string key : {"g", "w"}) {
      TerminalProgram program(cap.guided());
      REQUIRE(asks_how_it_broke(program));
      program.press(key);
      REQUIRE(program.asks(key == "g" ? "bag: " : "note: "));
      program.press(stop);
      REQUIRE(program.shows("nothing was recorded"));
      REQUIRE(program.shows("stopped; bench J06 goes on here"));
      CHECK(program.ended() == 0);
      CHECK(is_as_it_was(program));
    }
  }
  CHECK(cap.lines().empty());
}

TEST_CASE("a closed pipe leaves nothing half written at the bench", "[program][bench]") {
  // The reader goes away after so many lines; what is read in one piece is written in one.
  const std::string typed = "g\\n7\\n\\nw\\nrust\\n60s\\n70o\\nt\\ng\\n8\\n";
  const Lines whole = {
      "J06/01 out, broke normal, bag 7", "J06/01 out, broke normal, bag 7, note: rust",
      "J06/01 pull 60s on TW2",          "J06/01 60s 70o on TW2",
      "J06/02 out, broke tight, bag 7",  "J06/02 out, broke tight, bag 8"};
  std::set<std::size_t> lengths;
  for (const int lines : {1, 6, 9, 14, 19, 24, 60}) {
    INFO(lines);
    Cap cap;
    std::string command = "printf '" + typed + "' | '" BOLTWITNESS_PROGRAM "'";
    for (const auto& argument : cap.guided()) command += " '" + argument + "'";
    command += " 2>/dev/null | head -n " + std::to_string(lines) + " >/dev/null";
    CHECK(std::system(command.c_str()) == 0);
    auto written = cap.lines();
    for (auto& line : written) {
      if (line.starts_with("STRUCK ")) line.erase(0, 7);
    }
    lengths.insert(written.size());
    REQUIRE(written.size() <= whole.size());
    CHECK(std::equal(written.begin(), written.end(), whole.begin()));
    // Whatever stands there, one removal of a position counts.
    const auto struck = cap.lines();
    for (const auto* position : {"J06/01 out", "J06/02 out"}) {
      CHECK(std::ranges::count_if(
                struck, [&](const auto& line) { return line.starts_with(position); }) <= 1);
    }
    CHECK(cap.trial.run("bench J06").code == 0);
  }
  CHECK(lengths.contains(whole.size()));
}

TEST_CASE("killed between two pulls, the bench goes on with the same test", "[program][bench]") {
  Cap cap;
  const std::vector<std::string> settings = {"48", "52", "56", "60", "64"};
  std::string so_far;
  for (const auto& setting : settings) {
    TerminalProgram program(cap.guided());
    if (so_far.empty()) {
      REQUIRE(asks_how_it_broke(program));
      program.press("\r");
    } else {
      REQUIRE(program.shows("so far" + so_far));
    }
    REQUIRE(asks_for_mark(program));
    program.press(setting + "s\r");
    REQUIRE(program.shows("pull " + setting + "s on TW2"));
    program.kill();
    CHECK_FALSE(program.ended().has_value());
    so_far += " " + setting + "s";
  }
  TerminalProgram last(cap.guided());
  REQUIRE(last.shows("so far" + so_far));
  REQUIRE(asks_for_mark(last));
  last.press("o");
  REQUIRE(last.shows("J06/02, 2 of 4"));
  CHECK(cap.lines().back() == "J06/01 48s 52s 56s 60s 64s 69o on TW2");
  CHECK(cap.lines().size() == 7);
}

TEST_CASE("killed at random moments after an answer, the bench loses and doubles nothing",
          "[program][bench]") {
  // What the lines say one after the other, and the key that writes each.
  const Lines expected = {"J06/01 out, broke normal", "J06/01 pull 48s on TW2",
                          "J06/01 pull 52s on TW2",   "J06/01 48s 52s 56o on TW2",
                          "J06/02 out, broke tight",  "J06/02 pull 49n on TW2",
                          "J06/02 49n 53p on TW2",    "J06/03 found empty"};
  const Lines keys = {"\r", "s", "s", "o", "t\r", "n\r", "p", "e"};
  std::mt19937 random(20260602);
  // From before the answer is read to after its line is durable, on a slow machine as well.
  std::uniform_int_distribution<int> microseconds(0, 100'000);
  int before = 0;
  int after = 0;
  Cap cap;
  for (auto lines = cap.lines(); lines.size() < expected.size();) {
    const auto at = lines.size();
    TerminalProgram program(cap.guided());
    REQUIRE(program.shows("; ? for more"));
    REQUIRE(program.asks());
    program.press(keys[at]);
    std::this_thread::sleep_for(std::chrono::microseconds(microseconds(random)));
    program.kill();
    CHECK_FALSE(program.ended().has_value());
    lines = cap.lines();
    REQUIRE((lines.size() == at || lines.size() == at + 1));
    ++(lines.size() == at ? before : after);
    REQUIRE(std::equal(lines.begin(), lines.end(), expected.begin()));
  }
  INFO("killed before the line: " << before << ", after it: " << after);
  CHECK(before > 0);
}

TEST_CASE("bag and note typed at the keyboard record nothing by their first letter",
          "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("bag 7\r");
  REQUIRE(asks_how_it_broke(program));
  program.press("note rusty\r");
  REQUIRE(program.shows("bag 7; note: rusty"));
  REQUIRE(asks_how_it_broke(program));
  program.press("\r");
  REQUIRE(asks_for_mark(program));
  program.press("note cleaned\r");
  REQUIRE(asks_for_mark(program));
  program.press("n\r");
  REQUIRE(program.shows("so far 48n"));
  REQUIRE(program.asks());
  program.press("q");
  REQUIRE(program.shows("stopped"));
  CHECK(program.ended() == 0);
  CHECK(cap.lines() == Lines{"STRUCK J06/01 out, broke normal, bag 7, note: rusty",
                             "J06/01 out, broke normal, bag 7, note: cleaned",
                             "J06/01 pull 48n on TW2"});
}

TEST_CASE("the bench fits every width and needs no colour", "[program][bench]") {
  const std::vector<std::pair<const char*, unsigned short>> terminals = {
      {"xterm", 60}, {"dumb", 60}, {"xterm", 73}, {"xterm", 137}, {"xterm", 200}};
  for (const auto& [terminal, columns] : terminals) {
    INFO(terminal << " " << columns);
    Cap cap;
    auto arguments = cap.guided();
    arguments.insert(arguments.begin(), "--no-color");
    TerminalProgram program(arguments, columns, terminal);
    REQUIRE(asks_how_it_broke(program));
    program.press("?");
    REQUIRE(program.shows("quit; all of it is kept"));
    REQUIRE(asks_how_it_broke(program));
    // Enter right behind a key would belong to it.
    std::this_thread::sleep_for(std::chrono::milliseconds(350));
    program.press("\r");
    REQUIRE(asks_for_mark(program));
    program.press("o");
    REQUIRE(program.shows("2 of 4"));
    REQUIRE(asks_how_it_broke(program));
    program.press("q");
    REQUIRE(program.shows("stopped"));
    CHECK(program.ended() == 0);
    INFO(program.screen());
    CHECK(program.screen().find("\x1b[1m") == std::string::npos);
    CHECK(program.screen().find("\x1b[3") == std::string::npos);
    std::size_t line_start = 0;
    for (std::size_t i = 0; i < program.screen().size(); ++i) {
      if (program.screen()[i] != '\n') continue;
      auto line = program.screen().substr(line_start, i - line_start);
      std::erase(line, '\r');
      INFO(line);
      // What the line editor moves the cursor with takes no columns.
      if (line.find('\x1b') != std::string::npos) continue;
      CHECK(words::display_width(line) <= std::min<std::size_t>(columns, 100));
      line_start = i + 1;
    }
  }
}

TEST_CASE("a key that means nothing answers at once, and the keys after it count",
          "[program][bench]") {
  Cap cap;
  TerminalProgram program(cap.guided());
  REQUIRE(asks_how_it_broke(program));
  program.press("x");
  REQUIRE(program.shows("\"x\" is no key here; Enter t z l r e m g w k u q ? are"));
  REQUIRE(asks_how_it_broke(program));
  for (const std::string sign : {"-", "!", "\\", "^"}) {
    program.press(sign);
    REQUIRE(program.shows("is no key here; Enter t z l r e m g w k u q ? are"));
    REQUIRE(asks_how_it_broke(program));
  }
  program.press("t\r");
  REQUIRE(asks_for_mark(program));
  program.press("Z");
  REQUIRE(program.shows("\"Z\" is no key here; Enter s o p n b f g w k u q ? are"));
  REQUIRE(asks_for_mark(program));
  program.press("s");
  REQUIRE(program.shows("next 52 N·m on TW2"));
  REQUIRE(asks_for_mark(program));
  // What begins a name, a figure or stands behind a blank still makes a line.
  program.press("j06/3\r");
  REQUIRE(program.shows("J06/03, 1 of 1"));
  REQUIRE(asks_how_it_broke(program));
  program.press("q");
  CHECK(program.ended() == 0);
  CHECK(cap.lines() == Lines{"J06/01 out, broke tight", "J06/01 pull 48s on TW2"});
}

}  // namespace bench_terminal_test
