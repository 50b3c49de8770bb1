// Killed at random moments, the whole sample job from its first line to the last stripe ends as it
// does without a kill.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>

#include "support/catch.h"
#include "support/child_program.h"
#include "support/places.h"
#include "support/trial.h"

namespace interruption_test {

namespace {

constexpr int kKills = 200;
constexpr int kKillsOfOneCommand = 6;

// The command lines of the sample job, in their order.
std::vector<std::string> sample_commands() {
  std::vector<std::filesystem::path> files;
  for (const auto& file : std::filesystem::directory_iterator(BOLTWITNESS_SAMPLES "/gb1")) {
    files.push_back(file.path());
  }
  std::ranges::sort(files);
  const std::string program = "boltwitness ";
  std::vector<std::string> commands;
  for (const auto& path : files) {
    std::ifstream file(path);
    for (std::string line; std::getline(file, line);) {
      // What only prints writes to no logbook.
      if (line.find(" --out ") != std::string::npos) continue;
      if (line.starts_with(program)) commands.push_back(line.substr(program.size()));
    }
  }
  return commands;
}

// A folder with the logbook of one run of the job.
class Job {
 public:
  Job() { trial.environment["BOLTWITNESS_LOG"] = log(); }

  [[nodiscard]] std::string log() const { return trial.folder().file("gb1.bolts"); }

  // The words of a command, writing to this run's logbook.
  [[nodiscard]] std::vector<std::string> words(const std::string& command) const {
    auto words = words_of(command);
    std::ranges::replace(words, "gb1.bolts", log());
    words.insert(words.begin(), {"--log", log()});
    return words;
  }

  // What every line says, in order; nothing where there is no logbook yet.
  std::vector<std::string> lines() {
    std::vector<std::string> says;
    if (!std::filesystem::exists(log())) return says;
    const auto history = trial.done("history --json").json();
    for (const auto& line : history["lines"]) {
      auto text = line["says"].get<std::string>();
      const auto at = text.find(log());
      if (at != std::string::npos) text.replace(at, log().size(), "gb1.bolts");
      says.push_back(text + " " + line["by"].get<std::string>() + " " +
                     line["done_at"].get<std::string>());
    }
    return says;
  }

  Trial trial;
};

}  // namespace

TEST_CASE("200 kills at random moments of the whole job change nothing of its end", "[program]") {
  const auto commands = sample_commands();
  REQUIRE(commands.size() > 150);

  Job undisturbed;
  std::vector<std::size_t> lines_after;
  std::vector<std::chrono::microseconds> took;
  for (const auto& command : commands) {
    const auto start = std::chrono::steady_clock::now();
    run_program(undisturbed.words(command));
    took.push_back(std::chrono::duration_cast<std::chrono::microseconds>(
        std::chrono::steady_clock::now() - start));
    lines_after.push_back(undisturbed.lines().size());
  }

  // From dead at once to a little longer than the command takes on this machine, so that some die
  // after their line was written.
  std::mt19937 random(20260602);
  std::uniform_real_distribution<double> share_of_life(0.0, 1.1);

  Job disturbed;
  int kills = 0;
  int killed_before_the_line = 0;
  std::size_t lines_before = 0;
  for (std::size_t i = 0; i < commands.size(); ++i) {
    INFO(commands[i]);
    const auto words = disturbed.words(commands[i]);
    bool is_done = false;
    for (int attempt = 0; !is_done; ++attempt) {
      bool was_killed = false;
      if (kills < kKills && attempt < kKillsOfOneCommand) {
        const auto life =
            std::chrono::duration_cast<std::chrono::microseconds>(took[i] * share_of_life(random));
        was_killed = !run_program(words, life).has_value();
      } else {
        run_program(words);
      }
      kills += was_killed ? 1 : 0;
      const auto lines = disturbed.lines().size();
      // The lines of one command come together or not at all.
      REQUIRE((lines == lines_before || lines == lines_after[i]));
      is_done = lines == lines_after[i];
      if (!is_done) {
        REQUIRE(was_killed);
        ++killed_before_the_line;
      }
    }
    lines_before = lines_after[i];
  }
  CHECK(kills == kKills);
  INFO("killed before the line was written: " << killed_before_the_line);
  CHECK(killed_before_the_line > 0);
  CHECK(killed_before_the_line < kKills);

  CHECK(disturbed.lines() == undisturbed.lines());
  const auto status = disturbed.trial.done("sequence --status --json --at 2025-05-22T09:20").json();
  CHECK(status["finished"] == true);
}

}  // namespace interruption_test
