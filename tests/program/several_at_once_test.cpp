// Several people write to one logbook at once: nothing is lost, and nobody is turned away for
// having had to wait.

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <optional>
#include <thread>
#include <vector>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "logbook/verification.h"
#include "support/catch.h"
#include "support/child_program.h"
#include "support/torture.h"
#include "support/trial.h"

namespace several_at_once_test {

namespace {

class Job {
 public:
  Job() {
    trial.environment["BOLTWITNESS_LOG"] = path();
    trial.done("start " + path() + " --machine 'pump 4'");
    trial.done("wrench TW1 --range '5..60 N·m' --graduation '0.5 N·m'");
    trial.done(
        "joint J01 --holds cover --size M8 --grade 8.8 --count 4 --spec '25 N·m' --source x");
  }
  [[nodiscard]] std::string path() const { return trial.folder().file("p4.bolts"); }

  Trial trial;
};

// Somebody else who has begun to write and does not finish.
class Holder {
 public:
  explicit Holder(const std::string& path)
      : logbook_(logbook::Logbook::open_to_write(path)),
        recording_(std::in_place, logbook_,
                   logbook::Writer{"AB", "00000000-0000-4000-8000-000000000002", {}, {}}) {}
  void let_go() { recording_.reset(); }

 private:
  logbook::Logbook logbook_;
  std::optional<logbook::Recording> recording_;
};

std::vector<std::string> files_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    names.push_back(file.path().filename().string());
  }
  return names;
}

// Several that run commands at once, each a process of its own.
class AtOnce {
 public:
  // `commands` tells how many of them were refused.
  void start(const std::function<std::size_t()>& commands) {
    const pid_t process = ::fork();
    REQUIRE(process >= 0);
    if (process == 0) ::_exit(static_cast<int>(std::min<std::size_t>(commands(), 100)));
    processes_.push_back(process);
  }

  // Waits for all of them: how many commands were refused (of each at most 100).
  std::size_t refused() {
    std::size_t refused = 0;
    for (const pid_t process : processes_) {
      int status = 0;
      ::waitpid(process, &status, 0);
      refused += WIFEXITED(status) ? static_cast<std::size_t>(WEXITSTATUS(status)) : 1;
    }
    return refused;
  }

 private:
  std::vector<pid_t> processes_;
};

}  // namespace

TEST_CASE("eight programs at once lose no line, and none is refused", "[program][torture]") {
  const Job job;
  constexpr int kPrograms = 8;
  const auto each = trials(6, 500);
  AtOnce programs;
  for (int program = 0; program < kPrograms; ++program) {
    programs.start([&, program] {
      std::size_t refused = 0;
      for (std::size_t i = 0; i < each; ++i) {
        const auto outcome = run_program_in(
            {}, {"item", "C" + std::to_string(program) + "-" + std::to_string(i), "--what", "clips",
                 "--count", "3", "--by", "P" + std::to_string(program), "--log", job.path()});
        if (outcome.code != 0) ++refused;
      }
      return refused;
    });
  }
  const auto refused = programs.refused();
  const auto written = logbook::Logbook::open_to_read(job.path()).history().size() - 4;
  const auto wanted = kPrograms * each;
  const bool fits = logbook::verify(job.path()).fits();
  tell_torture("8 programs writing at once", wanted,
               std::to_string(written) + " lines there, " + std::to_string(refused) + " refused",
               refused + (wanted - written) + (fits ? 0 : 1));
  CHECK(written == wanted);
  CHECK(refused == 0);
  CHECK(fits);
}

TEST_CASE("eight programs at once export, start and back up into one folder",
          "[program][torture]") {
  Job job;
  const auto folder = job.trial.folder().path() / "out";
  std::filesystem::create_directory(folder);
  const auto named = [&](const std::string& name) { return (folder / name).string(); };
  // Three of the drafts that killed programs left, which everybody sweeps away.
  for (const auto* left : {"1", "2", "3"}) {
    std::ofstream(named(".writing-00000000-0000-4000-8000-00000000000" + std::string(left))) << "x";
  }
  const auto each = trials(12, 250);
  AtOnce programs;
  for (int program = 0; program < 8; ++program) {
    programs.start([&, program] {
      std::size_t refused = 0;
      for (std::size_t i = 0; i < each; ++i) {
        const auto name = std::to_string(program) + "-" + std::to_string(i);
        std::vector<std::string> words = {"backup", folder.string(), "--log", job.path()};
        if (program % 3 == 1)
          words = {"export", "--to", named(name + ".json"), "--log", job.path()};
        if (program % 3 == 2) words = {"start", named(name + ".bolts"), "--machine", "pump 5"};
        if (run_program_in({}, words).code != 0) ++refused;
      }
      return refused;
    });
  }
  const auto refused = programs.refused();
  std::map<std::string, std::size_t> there;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    const auto name = file.path().filename().string();
    ++there[name.starts_with("p4-") ? "copies" : name.starts_with('.') ? "drafts" : "others"];
  }
  tell_torture(
      "8 programs exporting, starting and backing up into one folder", 8 * each,
      std::to_string(refused) + " refused, " + std::to_string(there["drafts"]) + " drafts left",
      refused + there["drafts"]);
  CHECK(refused == 0);
  CHECK(there == std::map<std::string, std::size_t>{
                     {"copies", 3 * each}, {"others", 5 * each}, {"drafts", 0}});
}

TEST_CASE("of ten programs that back up at once none takes the newest copies away",
          "[program][torture]") {
  const Job job;
  constexpr std::size_t kKept = 3;
  const auto rounds = trials(3, 100);
  std::size_t faults = 0;
  std::size_t more = 0;
  for (std::size_t round = 0; round < rounds; ++round) {
    const auto folder = job.trial.folder().file("copies-" + std::to_string(round));
    std::filesystem::create_directory(folder);
    AtOnce programs;
    const auto back_up = [&] {
      return run_program_in({}, {"backup", folder, "--keep", "3", "--log", job.path()}).code != 0;
    };
    for (int program = 0; program < 10; ++program) {
      programs.start([&] { return back_up() ? 1U : 0U; });
    }
    if (programs.refused() > 0) ++faults;
    // One that was overtaken keeps its own besides.
    const auto left = files_in(folder).size();
    if (left < kKept) ++faults;
    if (left > kKept) ++more;
    if (back_up() || files_in(folder).size() != kKept) ++faults;
  }
  tell_torture("10 programs backing up with --keep 3 at once", 10 * rounds,
               "3 copies left, in " + std::to_string(more) + " rounds more until the next", faults);
  CHECK(faults == 0);
}

TEST_CASE("who waits for a held logbook is told by whom it is held, and what he can do",
          "[program][torture]") {
  const Job job;
  Holder holder(job.path());
  TerminalProgram program({"item", "CL1", "--what", "clips", "--count", "3", "--log", job.path()});
  CHECK(program.shows("is held by"));
  CHECK(program.shows(std::to_string(::getpid())));
  CHECK(program.shows("Ctrl-C"));
  std::this_thread::sleep_for(std::chrono::seconds(trials(0, 30)));
  holder.let_go();
  CHECK(program.shows("line 5"));
  CHECK(program.ended() == 0);
  const auto& screen = program.screen();
  CHECK(screen.find("is held by") == screen.rfind("is held by"));
  tell_torture("a lock held while a command waits", 1, "told once, then written", 0);
}

TEST_CASE("every command that writes tells that it waits, and can be ended", "[program][torture]") {
  Job job;
  job.trial.environment["XDG_DATA_HOME"] = job.trial.folder().file("own");
  const auto apart = job.trial.folder().file("apart.bolts");
  std::filesystem::copy_file(job.path(), apart);
  job.trial.done("out J01/1 --log " + apart);
  const auto rows = job.trial.folder().file("rows.csv");
  std::ofstream(rows) << "joint,holds,size,grade,count\nJ07,plate,M8,8.8,4\n";
  const std::vector<std::string> commands = {
      "sign",
      "merge " + apart,
      "import " + rows,
      "strike 4 --why 'another joint'",
      "wrench TW2 --range '5..60 N·m' --graduation '0.5 N·m'",
      "joint J02 --holds cover --size M8 --grade 8.8 --count 4",
      "found J01/1 20s 25o 26p --wrench TW1",
      "out J01/1-4",
      "fluid oil --drained '1 L'",
      "hold-point HV --what dead --before J01",
      "tighten J01/1-4 --pass 1",
      "stripe J01/1 --wiped",
      "recheck J01/1 aligned",
      "settle no-source:J01 --as use-as-is --why x",
      "renew J01/1 --arrived",
      "out J01/1 --replace 4 --why 'another joint'"};
  const Holder holder(job.path());
  const auto tried = trials(3, commands.size());
  std::size_t faults = 0;
  std::string first;
  for (std::size_t i = 0; i < tried; ++i) {
    auto words = words_of(commands[i]);
    words.insert(words.end(), {"--log", job.path(), "--by", "KB"});
    TerminalProgram program(words);
    const bool is_told = program.shows("is held by") && program.shows("Ctrl-C gives up");
    program.press("\x03");
    const auto code = program.ended();
    if ((!is_told || code) && faults++ == 0) first = commands[i] + ": " + program.screen();
  }
  const auto lines = logbook::Logbook::open_to_read(job.path()).last_line();
  tell_torture("commands that wait for a lock, ended with Ctrl-C", tried,
               faults == 0 ? "told after a second, ended, nothing written" : first, faults);
  INFO(first);
  CHECK(faults == 0);
  CHECK(lines == 4);
}

TEST_CASE("a held logbook does not end a sitting at the bench", "[program][torture]") {
  const Job job;
  Holder holder(job.path());
  TerminalProgram program({"bench", "J01", "--wrench", "TW1", "--log", job.path()});
  REQUIRE(program.asks());
  program.press("\r");
  CHECK(program.shows("is held by"));
  std::this_thread::sleep_for(std::chrono::seconds(trials(0, 30)));
  holder.let_go();
  CHECK(program.shows("line 5"));
  REQUIRE(program.asks());
  program.press("q");
  CHECK(program.ended() == 0);
  tell_torture("a lock held while a sitting waits", 1, "told, then gone on", 0);
}

TEST_CASE("who has waited long enough is told that nothing was written", "[program]") {
  Job job;
  const Holder holder(job.path());
  job.trial.patience = std::chrono::milliseconds(20);
  const auto refused = job.trial.run("item CL1 --what clips --count 3");
  CHECK(refused.code == 3);
  CHECK_THAT(refused.said(), ContainsSubstring("is held by") &&
                                 ContainsSubstring("try again when that one has finished") &&
                                 ContainsSubstring("this was not written"));
  CHECK(job.trial.run("history").code == 0);
}

}  // namespace several_at_once_test
