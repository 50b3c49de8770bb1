// A clock that was set back and a time zone that there is not: told, and no line suffers.

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"
#include "support/zone.h"
#include "terminal/time_zone.h"

namespace clock_and_zone_test {

TEST_CASE("a clock that is behind the last line is told, and the order of the lines stays",
          "[cli]") {
  Trial trial;
  const auto path = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = path;
  trial.done("start " + path + " --machine GB-1");
  CHECK(trial.done("item CL1 --what clips --count 3").err.empty());
  trial.now = record::read_moment("2000-01-01T00:10:00Z");
  const auto behind = trial.done("item CL2 --what clips --count 3");
  CHECK_THAT(behind.said(), ContainsSubstring("this machine's clock says 2000-01-01") &&
                                ContainsSubstring("the last line was entered at 2026-06-01"));
  trial.done("item CL3 --what clips --count 3");
  const auto lines = trial.done("history --json").json()["lines"];
  REQUIRE(lines.size() == 4);
  for (std::size_t i = 1; i < lines.size(); ++i) {
    CHECK(lines[i - 1]["id"].get<std::string>() < lines[i]["id"].get<std::string>());
  }
  CHECK(trial.done("verify").code == 0);
}

TEST_CASE("a time zone that this machine does not have is told", "[cli]") {
  const Zone put_back("CET-1CEST,M3.5.0,M10.5.0/3");
  Trial trial;
  trial.environment["TZ"] = "Mars/Olympus";
  const auto told = trial.done("convert '25 N·m'");
  CHECK_THAT(told.said(), ContainsSubstring("Mars/Olympus") &&
                              ContainsSubstring("so times are read and shown as UTC"));
  trial.environment["TZ"] = "CET-1CEST,M3.5.0,M10.5.0/3";
  CHECK(trial.done("convert '25 N·m'").err.empty());
}

// The C library makes some hours of each of these that nobody meant.
TEST_CASE("where times are said to be read as UTC they are", "[cli]") {
  const auto* name = GENERATE("UTC+168", "ABC1XYZ,J400", "UTC+99", "UTC+25", "XYZ+24", "AAA+1:99",
                              "ABC", "../../etc/passwd");
  INFO(name);
  const Zone zone(name);
  Trial trial;
  const auto log = trial.folder().file("gb1.bolts");
  trial.environment["BOLTWITNESS_LOG"] = log;
  trial.environment["TZ"] = name;
  trial.done("start " + log + " --machine GB-1");
  const auto told = trial.done("fluid oil --drained 1l --at 2026-03-01T02:30");
  CHECK_THAT(told.said(), ContainsSubstring("so times are read and shown as UTC"));
  CHECK_THAT(trial.done("history --json").out, ContainsSubstring("2026-03-01T02:30:00.000Z"));
  CHECK_THAT(trial.done("history").out, ContainsSubstring("2026-03-01 02:30"));
}

TEST_CASE("a zone is known by its file or by its rules", "[cli]") {
  const TemporaryFolder folder;
  std::filesystem::create_directory(folder.path() / "Inland");
  std::ofstream(folder.path() / "Inland" / "Valley") << "TZif2";
  std::ofstream(folder.path() / "Inland" / "Note") << "not a zone";
  const auto known = [&](const char* name) {
    return terminal::is_known_zone(name, folder.path().string());
  };
  // The forms of POSIX.1-2017, 8.3 (from memory).
  for (const auto* name :
       {"", "UTC", "UTC0", "EST5EDT", "CET-1CEST,M3.5.0,M10.5.0/3", "<+0545>-5:45",
        "NST3:30NDT,M3.2.0,M11.1.0", "Inland/Valley", ":Inland/Valley",
        "ABC12:59:59XYZ,J60/-1,364/167", "<-02>2<-01>,M3.5.0/-1,M10.5.0/0"}) {
    INFO(name);
    CHECK(known(name));
  }
  for (const auto* name : {"Mars/Olympus", "Inland/Note", "Inland", "CE-1", "CET-", "25", "CET-1,M",
                           "UTC+24", "UTC+99", "UTC+168", "AAA+1:60", "ABC1XYZ,J400",
                           "ABC1XYZ,J366,J1", "ABC1XYZ,M13.1.0,M1.1.0", "ABC1XYZ,M3.6.0,M1.1.0",
                           "ABC1XYZ,M3.1.7,M1.1.0", "ABC1XYZ,1/168,2"}) {
    INFO(name);
    CHECK_FALSE(known(name));
  }
}

}  // namespace clock_and_zone_test
