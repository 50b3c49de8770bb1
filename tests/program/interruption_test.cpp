// Killed at random moments, the job goes on at the exact next position and ends the same.

#include <map>
#include <random>

#include "support/bench.h"
#include "support/catch.h"
#include "support/child_program.h"

namespace {

constexpr int kKills = 200;

// Four joints, one of them in steps with an angle; more steps than there are kills.
class SmallMachine {
 public:
  SmallMachine() {
    bench.environment["BOLTWITNESS_LOG"] = log();
    bench.done("start " + log() + " --machine GB-1");
    bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    bench.done("joint J01 --holds cap --size M12x1.75 --grade 8.8 --count 8 --spec '80 N·m'");
    bench.done(
        "joint J02 --holds hub --size M12x1.25 --grade 10.9 --count 8 "
        "--spec '40 N·m, 60 N·m, +60°' --after J01");
    bench.done(
        "joint J03 --holds cover --size M10 --grade 8.8 --count 48 --spec '35 N·m' "
        "--after J02");
    bench.done("joint J04 --holds case --size M12x1.75 --grade 8.8 --count 48 --spec '80 N·m'");
    for (const auto* joint : {"J01/1-8", "J02/1-8", "J03/1-48", "J04/1-48"}) {
      bench.done(std::string("out ") + joint);
    }
  }
  [[nodiscard]] std::string log() const { return bench.folder().file("gb1.bolts"); }

  nlohmann::json standing() { return bench.done("tighten --json").json(); }

  Bench bench;
};

}  // namespace

TEST_CASE("200 kills at random moments lose no step and do none twice", "[program]") {
  SmallMachine machine;
  std::mt19937 random(20260602);
  // From dead at once to three times what a small run takes on this machine.
  const auto start = std::chrono::steady_clock::now();
  REQUIRE(run_program({"--log", machine.log(), "--by", "KB", "history"}) == 0);
  const auto whole_run = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - start);
  std::uniform_int_distribution<std::int64_t> microseconds(0, whole_run.count() * 3);
  int kills = 0;
  int lost = 0;
  while (true) {
    const auto standing = machine.standing();
    if (standing["next"].is_null()) break;
    const auto& next = standing["next"];
    const std::vector<std::string> command = {
        "--log",
        machine.log(),
        "--by",
        "KB",
        "--at",
        "2026-06-02T09:00",
        "tighten",
        next["joint"].get<std::string>() + "/" + std::to_string(next["position"].get<int>()),
        "--pass",
        std::to_string(next["pass"].get<int>())};
    if (kills < kKills) {
      const int before = standing["done"].get<int>();
      if (!run_program(command, std::chrono::microseconds(microseconds(random)))) ++kills;
      if (machine.standing()["done"].get<int>() == before) ++lost;
    } else {
      REQUIRE(run_program(command) == 0);
    }
  }
  CHECK(kills == kKills);
  INFO("kills before the line was written: " << lost);
  CHECK(lost > 0);
  CHECK(lost < kKills);

  // The end is the same as without a kill: every step done once.
  std::map<std::string, int> times;
  const auto lines = machine.bench.done("history --json").json()["lines"];
  for (const auto& line : lines) {
    const auto says = line["says"].get<std::string>();
    if (line["struck"].is_null() && says.find(": done") != std::string::npos) ++times[says];
  }
  const auto standing = machine.standing();
  CHECK(standing["done"] == standing["of"]);
  CHECK(times.size() == standing["of"].get<std::size_t>());
  for (const auto& [says, count] : times) {
    INFO(says);
    CHECK(count == 1);
  }
}
