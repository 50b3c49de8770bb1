// What is strong on a terminal stands where it stands without emphasis.

#include <fmt/format.h>

#include "manual/page.h"
#include "support/catch.h"
#include "support/sample_job.h"
#include "support/trial.h"

namespace emphasis_test {

namespace {

std::string without_emphasis(std::string text) {
  for (const std::string each : {"\x1b[1m", "\x1b[0m"}) {
    for (auto at = text.find(each); at != std::string::npos; at = text.find(each, at)) {
      text.erase(at, each.size());
    }
  }
  return text;
}

// Of the commands those that say something strong at 60, 80 or 100 columns; each breaks its lines
// as it does without.
std::size_t strong_ones(Trial& trial, const std::vector<std::string>& commands) {
  std::size_t strong = 0;
  trial.terminal = true;
  for (const auto& command : commands) {
    for (const std::size_t width : {60U, 80U, 100U}) {
      INFO(command << " at " << width);
      trial.width = width;
      const auto at = trial.now;
      const auto emphasised = trial.run(command).out;
      trial.now = at;
      CHECK(without_emphasis(emphasised) == trial.run(command + " --no-color").out);
      if (emphasised != without_emphasis(emphasised)) ++strong;
    }
  }
  return strong;
}

}  // namespace

TEST_CASE("a page of the manual breaks its lines as it does without emphasis", "[cli][manual]") {
  Trial trial;
  std::vector<std::string> commands;
  for (const auto& page : manual::pages()) commands.push_back(fmt::format("help {}", page.name));
  CHECK(strong_ones(trial, commands) == 3 * commands.size());
}

TEST_CASE("every screen breaks its lines as it does without emphasis", "[cli][screen]") {
  Trial trial;
  run_sample_job(trial);
  const std::vector<std::string> commands = {
      "status --whole",
      "show J06",
      "show J06/1",
      "compare",
      "compare J06",
      "audit --all --why",
      "sequence --whole",
      "sequence J06",
      "renew",
      "recheck",
      "fluid",
      "hold-point",
      "verify",
      "bolt M12 --grade 8.8 --torque '80 N·m' --condition oiled"};
  CHECK(strong_ones(trial, commands) >= 30);
}

}  // namespace emphasis_test
