// A clock that was set back and a time zone that there is not: told, and no line suffers.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "logbook/verification.h"
#include "support/catch.h"
#include "support/torture.h"
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

namespace {

// A cap of four bolts, out at nine, at a bench whose clock is set as a test likes.
class Bench {
 public:
  Bench() : log(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = log;
    trial.environment["XDG_DATA_HOME"] = trial.folder().file("own");
    trial.done("start " + log + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m' --source 'GB-1 p. "
        "3' --condition dry");
    clock("2026-06-01T09:00:00Z");
    trial.done("out J06/1-4");
  }
  void clock(const std::string& moment) { trial.now = record::read_moment(moment); }
  std::size_t lines() { return trial.done("history --json").json()["lines"].size(); }
  // The deviations that the audit has open, by id.
  std::set<std::string> open() {
    std::set<std::string> ids;
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) ids.insert(each["id"]);
    return ids;
  }
  bool is_in_order() {
    const auto lines = trial.done("history --json").json()["lines"];
    return std::ranges::is_sorted(
        lines, {}, [](const auto& line) { return line["id"].template get<std::string>(); });
  }

  Trial trial;
  std::string log;
};

// Told that the clock is behind the last line.
void check_told(const Outcome& answer) {
  CHECK_THAT(answer.said(), ContainsSubstring("this machine's clock says 2026-05-31") &&
                                ContainsSubstring("the last line was entered at 2026-06-01"));
}

}  // namespace

TEST_CASE("a finding by a clock that is behind is taken with its time, and told", "[cli]") {
  Bench bench;
  auto& trial = bench.trial;
  bench.clock("2026-05-31T08:00:00Z");
  const auto found = trial.done("found J06/1 70s 75o 80p --wrench TW2");
  check_told(found);
  const auto line = trial.done("history --json").json()["lines"].back();
  CHECK(line["done_at"].get<std::string>().starts_with("2026-05-31"));
  CHECK(bench.open().contains("ahead-of-the-clock"));
  // What was done before it came out on record stands in its place; with the clock right again
  // nothing is left of that.
  bench.clock("2026-06-01T10:00:00Z");
  CHECK_FALSE(bench.open().contains("ahead-of-the-clock"));
  CHECK_THAT(trial.done("compare").out, ContainsSubstring("75.0"));
  CHECK(bench.is_in_order());
  CHECK(trial.done("verify").code == 0);
}

TEST_CASE("a tightening by a clock that is behind is taken, counts for nothing and is told",
          "[cli]") {
  Bench bench;
  auto& trial = bench.trial;
  bench.clock("2026-05-31T08:00:00Z");
  const auto tightened = trial.done("tighten J06/1-4");
  check_told(tightened);
  CHECK_THAT(tightened.said(), ContainsSubstring("came out on 2026-06-01 09:00 (line 5), after "
                                                 "this: it counts for nothing"));
  CHECK(bench.open().contains("tightened-before-out:J06"));
  CHECK(trial.run("stripe J06/1 --wiped").code == 1);
  // With the clock right the whole is tightened, and the line from the wrong day is in nobody's
  // way.
  bench.clock("2026-06-01T10:00:00Z");
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");
  CHECK(trial.run("tighten J06/1-4").code != 0);
  trial.done("stripe J06/1-4 --wiped");
  CHECK(bench.is_in_order());
  CHECK(trial.done("verify").code == 0);
}

TEST_CASE("with a clock that is behind no guide leads on, nor asks for the same pull for ever",
          "[cli]") {
  Bench bench;
  auto& trial = bench.trial;
  SECTION("before it came out") {
    bench.clock("2026-05-31T08:00:00Z");
    trial.typed = "d\nd\nd\nq\n";
    const auto before = bench.lines();
    const auto refused = trial.run("tighten J06");
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(),
               ContainsSubstring("J06/01 stands as of 2026-06-01 09:00 (line 5), which is later "
                                 "than 2026-05-31 08:00") &&
                   ContainsSubstring("put the clock right"));
    CHECK(bench.lines() == before);
  }
  SECTION("before its last pass, also where that is said with --at") {
    bench.clock("2026-06-01T12:00:00Z");
    trial.done("tighten J06/1-4");
    bench.clock("2026-06-01T10:00:00Z");
    const auto before = bench.lines();
    for (const std::string at : {"", " --at 2026-06-01T09:30"}) {
      trial.typed = "d\nd\nd\nq\n";
      const auto refused = trial.run("tighten J06" + at);
      CHECK(refused.code == 1);
      CHECK_THAT(refused.said(), ContainsSubstring("stands as of 2026-06-01 12:00 (line 6)"));
    }
    CHECK(bench.lines() == before);
    bench.clock("2026-06-01T12:00:10Z");
    trial.typed = "d\nd\nq\n";
    trial.done("tighten J06");
    CHECK(bench.lines() == before + 2);
  }
  SECTION("in the midst of a test") {
    trial.done("joint J07 --holds lid --size M12 --grade 8.8 --count 2 --spec '80 N·m'");
    trial.typed = "\ns\n";
    trial.done("bench J07/1");
    const auto before = bench.lines();
    bench.clock("2026-05-31T08:00:00Z");
    trial.typed = "s\no\np\nq\n";
    const auto led = trial.run("bench J07/1");
    CHECK_THAT(led.said(), ContainsSubstring("a test goes on in the order in which it was pulled"));
    CHECK(bench.lines() == before);
  }
}

TEST_CASE("copies one of which was written by a clock that was behind merge in any order",
          "[cli]") {
  Bench bench;
  auto& trial = bench.trial;
  const auto phone = trial.folder().file("phone.bolts");
  const auto there = trial.folder().file("there.bolts");
  std::filesystem::copy_file(bench.log, phone);
  trial.done("tighten J06/1-4");
  trial.done("fluid oil --drained '1 L'");
  trial.device.back() = '2';
  bench.clock("2026-05-31T08:00:00Z");
  trial.done("tighten J06/1-4 --log " + phone);
  trial.done("found J06/2 70s 75o 80p --wrench TW2 --log " + phone);
  std::filesystem::copy_file(phone, there);
  bench.clock("2026-06-02T08:00:00Z");
  trial.done("merge " + bench.log + " --log " + there);
  // With the clock of the merge behind as well.
  bench.clock("2026-05-31T09:00:00Z");
  trial.done("merge " + phone);
  bench.clock("2026-06-02T09:00:00Z");
  CHECK(trial.done("export").out == trial.done("export --log " + there).out);
  CHECK(bench.open().contains("tightened-before-out:J06"));
  CHECK(bench.is_in_order());
  CHECK(trial.done("verify").code == 0);
  // And is gone on with.
  trial.done("tighten J06/1-4");
  CHECK(bench.is_in_order());
}

TEST_CASE("whatever the clock does, a command is done or refused, and no line suffers",
          "[cli][torture][slow]") {
  const auto wanted = trials(8, 400);
  std::mt19937 random(20260602);
  const auto number = [&](int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random);
  };
  std::size_t tried = 0;
  std::size_t refused = 0;
  std::size_t faults = 0;
  std::string first;
  for (std::size_t story = 0; story < wanted; ++story) {
    Bench bench;
    auto& trial = bench.trial;
    trial.done("item CL1 --what clips --count 40");
    trial.done("hold-point HV --what dead --before J06");
    for (int deed = 0; deed < 30; ++deed) {
      // Years and days off, an hour, and right.
      const auto jump = number(0, 3) == 0   ? std::chrono::hours(number(-200'000, 200'000))
                        : number(0, 1) == 0 ? std::chrono::hours(number(-40, 40))
                                            : std::chrono::hours(0);
      trial.now = record::read_moment("2026-06-01T10:00:00Z") + jump + std::chrono::minutes(deed);
      const auto place = "J06/" + std::to_string(number(1, 4));
      const std::vector<std::string> commands = {
          "found " + place + " 70s 75o 80p --wrench TW2",
          "out " + place,
          "tighten J06/1-4",
          "tighten " + place + " --pass " + std::to_string(number(1, 3)),
          "stripe " + place + " --wiped",
          "recheck " + place + " 'turned 5°'",
          "renew " + place + " --arrived",
          "item CL1 --back 1",
          "hold-point HV --pass",
          "hold-point HV --close --note on",
          "wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-05-30",
          "joint J06 --recheck '7 days'",
          "sign",
          "settle re-check:J06 --as use-as-is --why seen",
          "tighten J06",
          "bench " + place};
      const auto& command = commands[static_cast<std::size_t>(number(0, 15))];
      trial.typed = "d\n\ns\no\np\nd\nq\nq\n";
      const auto before = bench.lines();
      const auto answer = trial.run(command);
      trial.typed.clear();
      ++tried;
      std::string wrong;
      if (answer.code > 2) wrong = "exit " + std::to_string(answer.code) + ": " + answer.said();
      const bool is_guide = command == "tighten J06" || command.starts_with("bench");
      if (answer.code != 0) {
        ++refused;
        if (!is_guide && bench.lines() != before) wrong = "refused, and a line more";
      }
      if (is_guide && bench.lines() > before + 6) wrong = "more lines than answers";
      for (const auto* look : {"status", "audit", "sequence", "show J06", "history", "report"}) {
        const auto seen = trial.run(look);
        if (seen.code > 1) wrong = std::string(look) + ": " + seen.said();
      }
      if (!bench.is_in_order()) wrong = "lines out of order";
      if (!logbook::verify(bench.log).fits()) wrong = "does not fit";
      if (!wrong.empty() && faults++ == 0) {
        first = record::write_utc(trial.now) + ' ' + command + ": " + wrong;
      }
    }
  }
  tell_torture(
      "a clock that jumps", tried,
      faults == 0 ? std::to_string(refused) + " refused, the others there, in their order" : first,
      faults);
  INFO(first);
  CHECK(faults == 0);
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
