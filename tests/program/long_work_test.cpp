// Long work shows how far it is, and Ctrl-C in the midst of it leaves the logbook as it was.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "logbook/logbook.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/content_of.h"
#include "support/trial.h"

namespace long_work_test {

namespace {

namespace fs = std::filesystem;

// A logbook of joints with 4,000 findings, and a table of as many more.
class Whole {
 public:
  Whole() {
    trial.environment["BOLTWITNESS_LOG"] = log();
    trial.done("start " + log() + " --machine 'turbine 2'");
    trial.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
    std::ofstream joints(file("joints.csv"));
    std::ofstream findings(file("findings.csv"));
    std::ofstream more(file("more.csv"));
    joints << "joint,holds,size,grade,count,spec,source\n";
    for (auto* table : {&findings, &more}) *table << "address,readings,wrench,unit\n";
    for (int joint = 1; joint <= 40; ++joint) {
      joints << fmt::format("J{0:02},cover {0},M8,8.8,100,25 N·m,manual\n", joint);
      for (int position = 1; position <= 100; ++position) {
        findings << fmt::format("J{:02}/{},24s 25p,TW1,N·m\n", joint, position);
        more << fmt::format("J{:02}/{},23s 25p,TW1,N·m\n", joint, position);
      }
    }
    joints.close();
    findings.close();
    more.close();
    trial.done("import " + file("joints.csv"));
    trial.done("import " + file("findings.csv"));
  }

  [[nodiscard]] std::string file(const std::string& name) const {
    return trial.folder().file(name);
  }
  [[nodiscard]] std::string log() const { return file("t2.bolts"); }
  [[nodiscard]] std::int64_t lines() const {
    return logbook::Logbook::open_to_read(log()).last_line();
  }
  [[nodiscard]] std::vector<std::string> files() const {
    std::vector<std::string> names;
    for (const auto& each : fs::directory_iterator(trial.folder().path())) {
      names.push_back(each.path().filename().string());
    }
    std::ranges::sort(names);
    return names;
  }

  Trial trial;
};

}  // namespace

TEST_CASE("long reading shows how far it is, and Ctrl-C leaves everything as it was",
          "[program][slow]") {
  const Whole whole;
  const auto before = content_of(whole.log());
  const auto files = whole.files();
  // What was made of the logbook appears when it is complete and never before.
  const std::vector<std::pair<std::vector<std::string>, std::string>> commands = {
      {{"audit"}, "reading            ["},
      {{"report", "--out", whole.file("report.html")}, "reading            ["},
      {{"export", "--to", whole.file("whole.json")}, "exporting          ["},
      {{"export", "findings", "--to", whole.file("again.csv")}, "exporting          ["},
  };
  for (const auto& [command, bar] : commands) {
    INFO(command.front());
    auto words = command;
    words.insert(words.begin(), {"--log", whole.log()});
    TerminalProgram program(words);
    REQUIRE(program.shows_slowed(bar));
    program.press("\x03");
    CHECK_FALSE(program.ended().has_value());
    CHECK(content_of(whole.log()) == before);
    if (command.size() > 1) CHECK_FALSE(fs::exists(command.back()));
  }
  // The next command tidies away what those left when they were stopped.
  CHECK(run_program({"--log", whole.log(), "export", "wrenches", "--to", whole.file("w.csv")}) ==
        0);
  fs::remove(whole.file("w.csv"));
  CHECK(whole.files() == files);
}

TEST_CASE("an import that is stopped by Ctrl-C has written nothing", "[program][slow]") {
  const Whole whole;
  const auto lines = whole.lines();
  TerminalProgram program({"--log", whole.log(), "import", whole.file("more.csv")});
  REQUIRE(program.shows_slowed("findings           ["));
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
  CHECK(whole.lines() == lines);
  // Nothing of it stands in the way of the next.
  CHECK(run_program({"--log", whole.log(), "import", whole.file("more.csv")}) == 0);
  CHECK(whole.lines() == lines + 4000);
}

TEST_CASE("verify shows how far it is, and Ctrl-C leaves everything as it was", "[program][slow]") {
  const Whole whole;
  const auto before = content_of(whole.log());
  const auto files = whole.files();
  TerminalProgram program({"--log", whole.log(), "verify"});
  REQUIRE(program.shows_slowed("verifying          ["));
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
  CHECK(content_of(whole.log()) == before);
  // The next one closes what that left open.
  CHECK(run_program({"--log", whole.log(), "verify"}) == 0);
  CHECK(whole.files() == files);
}

TEST_CASE("a merge shows how far it is, and one that is stopped by Ctrl-C has taken nothing",
          "[program][slow]") {
  Whole whole;
  const auto apart = whole.file("apart.bolts");
  fs::copy_file(whole.log(), apart);
  whole.trial.device.back() = '2';
  whole.trial.done("import " + whole.file("more.csv") + " --log " + apart);
  const auto before = content_of(apart);
  const auto lines = whole.lines();
  TerminalProgram program({"--log", whole.log(), "merge", apart});
  REQUIRE(program.shows_slowed("checking the copy  ["));
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
  CHECK(whole.lines() == lines);
  CHECK(content_of(apart) == before);
  CHECK(run_program({"--log", whole.log(), "merge", apart}) == 0);
  CHECK(whole.lines() == lines + 4000);
}

TEST_CASE("a backup shows how far it is, and one that is stopped by Ctrl-C has left no copy",
          "[program][slow]") {
  const Whole whole;
  const auto before = content_of(whole.log());
  const auto folder = whole.file("stick");
  fs::create_directory(folder);
  TerminalProgram program({"--log", whole.log(), "backup", folder});
  // So few pages are copied before anybody could look.
  REQUIRE(program.shows_slowed("verifying          ["));
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
  CHECK(content_of(whole.log()) == before);
  // Nothing that anybody could take for a copy.
  for (const auto& each : fs::directory_iterator(folder)) {
    CHECK(each.path().filename().string().starts_with(".writing-"));
  }
  // The next one tidies away what those left when they were stopped.
  CHECK(run_program({"--log", whole.log(), "backup", folder}) == 0);
  CHECK(std::distance(fs::directory_iterator(folder), fs::directory_iterator()) == 1);
}

TEST_CASE("an import of a copy that is stopped by Ctrl-C has made no logbook", "[program][slow]") {
  Whole whole;
  const auto copy = whole.file("whole.json");
  whole.trial.done("export --to " + copy);
  const auto made = whole.file("made.bolts");
  TerminalProgram program({"--log", made, "import", copy});
  REQUIRE(program.shows_slowed("reading the copy   ["));
  program.press("\x03");
  CHECK_FALSE(program.ended().has_value());
  CHECK_FALSE(fs::exists(made));
  CHECK(run_program({"--log", made, "import", copy}) == 0);
  CHECK(logbook::Logbook::open_to_read(made).last_line() == whole.lines());
  const auto files = whole.files();
  CHECK(
      std::ranges::none_of(files, [](const auto& name) { return name.starts_with(".writing-"); }));
}

TEST_CASE("an audit ends with its answer alone on the screen", "[program][slow]") {
  const Whole whole;
  TerminalProgram program({"--log", whole.log(), "audit"});
  REQUIRE(program.shows_slowed("looking at joints  ["));
  CHECK(program.shows("\r\x1b[K"));
  CHECK(program.ended().has_value());
}

}  // namespace long_work_test
