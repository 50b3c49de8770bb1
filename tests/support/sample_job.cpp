#include "support/sample_job.h"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "support/catch.h"

void run_sample_job(Bench& bench) {
  bench.now = record::read_moment("2025-06-01T08:00:00Z");
  const auto log = bench.folder().file("gb1.bolts");
  bench.environment["BOLTWITNESS_LOG"] = log;
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(BOLTWITNESS_SAMPLES) / "gb1")) {
    files.push_back(entry.path());
  }
  std::ranges::sort(files);
  REQUIRE_FALSE(files.empty());
  constexpr std::string_view kProgram = "boltwitness ";
  for (const auto& file : files) {
    std::ifstream lines(file);
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with(kProgram)) continue;
      auto command = line.substr(kProgram.size());
      // What only prints is not needed here, and pages would be left in the folder of the test.
      const auto verb = command.substr(0, command.find(' '));
      if (verb != "start" && verb != "wrench" && verb != "joint" && verb != "out" &&
          verb != "found" && verb != "strike") {
        continue;
      }
      if (verb == "start") command.replace(command.find("gb1.bolts"), 9, log);
      bench.done(command);
    }
  }
}
