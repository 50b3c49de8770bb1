#include "support/sample_job.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <utility>

#include "support/catch.h"
#include "support/places.h"

namespace {

constexpr std::string_view kProgram = "boltwitness ";

// Only what is recorded has a person; what is looked up or printed is not needed here.
bool is_recorded(const std::string& line) {
  return line.starts_with(kProgram) && line.find(" --by ") != std::string::npos;
}

// Its --at, which stands at the end of every line.
std::string_view moment_of(const std::string& line) {
  constexpr std::string_view kAt = " --at ";
  const auto at = line.rfind(kAt);
  REQUIRE(at != std::string::npos);
  return std::string_view(line).substr(at + kAt.size());
}

void log_sample_job(Trial& trial, std::string_view until) {
  const auto log = trial.folder().file("gb1.bolts");
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(BOLTWITNESS_SAMPLES) / "gb1")) {
    files.push_back(entry.path());
  }
  std::ranges::sort(files);
  REQUIRE_FALSE(files.empty());
  for (const auto& file : files) {
    std::ifstream lines(file);
    for (std::string line; std::getline(lines, line);) {
      if (!is_recorded(line) || moment_of(line) > until) continue;
      auto command = line.substr(kProgram.size());
      if (command.starts_with("start ")) command.replace(command.find("gb1.bolts"), 9, log);
      trial.done(command);
    }
  }
}

}  // namespace

void run_sample_job(Trial& trial, std::string_view until) {
  trial.now = record::read_moment("2025-06-01T08:00:00Z");
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  // Logged once for each moment, since that is most of what many tests take.
  static std::map<std::string, std::pair<TemporaryFolder, record::Moment>, std::less<>> logged;
  if (const auto before = logged.find(until); before != logged.end()) {
    std::filesystem::copy_file(before->second.first.file("gb1.bolts"), log);
    trial.now = before->second.second;
    return;
  }
  log_sample_job(trial, until);
  auto& [folder, now] = logged[std::string(until)];
  std::filesystem::copy_file(log, folder.file("gb1.bolts"));
  now = trial.now;
}
