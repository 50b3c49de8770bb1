// What `joint` refuses without --really, and what `found` only remarks on.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace {

Trial& started(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  return trial;
}

constexpr auto kCover = "joint J07 --holds cover --size M8 --grade 8.8 --count 4 ";

}  // namespace

TEST_CASE("a specification that the size cannot carry is refused with the likely slip", "[cli]") {
  Trial trial;
  started(trial);
  const auto refused = trial.run(std::string(kCover) + "--spec '160 N·m'");
  CHECK(refused.code == 1);
  CHECK(refused.out.empty());
  CHECK_THAT(refused.said(), ContainsSubstring("160 N·m on M8 8.8 is 6 times its proof torque; 160 "
                                               "in·lbf = 18.1 N·m would fit"));
  CHECK_THAT(refused.said(), ContainsSubstring("--really"));
  CHECK(trial.done("compare --json").json()["rows"].empty());

  trial.done(std::string(kCover) + "--spec '160 in·lbf'");
  // A further specification of a joint that is there is looked at as well.
  CHECK(trial.run("joint J07 --spec '0.5 N·m'").code == 1);
}

TEST_CASE("what the source really says is taken and stays in the audit", "[cli]") {
  Trial trial;
  started(trial);
  const auto taken = trial.done(std::string(kCover) + "--spec '160 N·m' --source x --really");
  CHECK_THAT(taken.said(), ContainsSubstring("6 times its proof torque"));
  const auto deviations = trial.done("audit --json").json()["deviations"];
  REQUIRE(deviations.size() == 1);
  CHECK(deviations[0]["id"] == "implausible:J07");
  CHECK(deviations[0]["level"] == "check");
}

TEST_CASE("a low torque is only remarked on", "[cli]") {
  Trial trial;
  started(trial);
  const auto low = trial.done(std::string(kCover) + "--spec '4 N·m' --source x");
  CHECK_THAT(low.said(), ContainsSubstring("below the plausible"));
  CHECK(trial.done("audit --json").json()["deviations"].empty());
  Trial other;
  started(other);
  CHECK(other.done(std::string(kCover) + "--spec '20 N·m'").err.empty());
}

TEST_CASE("what has to be meant at its entry is in the audit, what is only remarked on is not",
          "[cli]") {
  for (const auto* torque : {"0.2", "0.5", "1", "2", "3", "4", "8", "15", "20", "25", "30", "35",
                             "40", "50", "60", "100", "160"}) {
    Trial trial;
    started(trial);
    const auto command = std::string(kCover) + "--source x --spec '" + torque + " N·m'";
    const bool is_refused = trial.run(command).code == 1;
    if (is_refused) trial.done(command + " --really");
    const auto audit = trial.run("audit --json").json()["deviations"].dump();
    INFO(command);
    CHECK(is_refused == (audit.find("implausible:J07") != std::string::npos));
  }
}

TEST_CASE("a finding is kept whatever it says, with a remark where the bolt cannot carry it",
          "[cli]") {
  Trial trial;
  started(trial);
  trial.done(std::string(kCover) + "--spec '20 N·m' --source x");
  const auto strange = trial.done("found J07/1 155s 160o --wrench TW2");
  CHECK_THAT(strange.said(), ContainsSubstring("160 N·m on M8 8.8 is 6 times"));
  CHECK_THAT(strange.said(), ContainsSubstring("; recorded"));
  CHECK(trial.done("found J07/2 22s 23s 24o --wrench TW2").err.empty());
  const auto audit = trial.run("audit --json").json()["deviations"].dump();
  CHECK_THAT(audit, ContainsSubstring("overstretched:J07/01"));
  CHECK(audit.find("overstretched:J07/02") == std::string::npos);
}
