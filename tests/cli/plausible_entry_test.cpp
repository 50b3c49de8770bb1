// What `joint` refuses without --really, and what `found` only remarks on.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace plausible_entry_test {

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
  const auto audit = trial.run("audit --json");
  CHECK(audit.code == 1);
  const auto deviations = audit.json()["deviations"];
  REQUIRE(deviations.size() == 1);
  CHECK(deviations[0]["id"] == "implausible:J07");
  CHECK(deviations[0]["level"] == "hold");
  trial.done("settle implausible:J07 --as use-as-is --why 'the source prints it, asked there'");
  CHECK(trial.run("audit").code == 0);
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

TEST_CASE("the parts of a joint are kept, and what they do not bear is said", "[cli]") {
  Trial trial;
  started(trial);
  const auto taken = trial.done(std::string(kCover) +
                                "--into 'en ac 46000' --engaged '7 mm' --seat GG25 --spec '25 N·m' "
                                "--source x --condition oiled");
  CHECK_THAT(taken.out, ContainsSubstring("into EN AC-46000, 7 mm\n  engaged; head on GJL-250"));
  CHECK_THAT(taken.said(), ContainsSubstring("the thread strips before the bolt yields"));
  CHECK(taken.said().find("head on GJL-250 at this torque") == std::string::npos);
  const auto shown = trial.done("show J07 --json").json()["joint"];
  CHECK(shown["into"] == "EN AC-46000");
  CHECK(shown["engaged_mm"] == 7.0);
  CHECK(shown["seat"] == "GJL-250");
  CHECK(shown["face_mm"].is_null());
  CHECK(shown["parts"].size() == 2);
  CHECK_THAT(trial.done("show J07").out, ContainsSubstring("the seat bears 900 MPa: holds"));
  CHECK_THAT(trial.run("audit").out, ContainsSubstring("thread-strips:J07"));
  // Corrected in one field, the others stay; another material lets go of the length in the old one.
  trial.done("joint J07 --engaged '16 mm' --replace 3 --why measured");
  CHECK(trial.done("show J07 --json").json()["joint"]["into"] == "EN AC-46000");
  CHECK(trial.done("audit --json").json()["deviations"].empty());
  trial.done("joint J07 --into S355 --replace 6 --why measured");
  CHECK(trial.done("show J07 --json").json()["joint"]["engaged_mm"].is_null());
}

TEST_CASE("a part that is not known, or a length without its part, is refused", "[cli]") {
  Trial trial;
  started(trial);
  const auto refused = [&](const std::string& options, const std::string& why) {
    const auto outcome = trial.run(std::string(kCover) + options);
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.said(), ContainsSubstring(why));
  };
  refused("--into cheese", "the material \"cheese\" is not known; known are S235");
  refused("--engaged 8mm", "--engaged needs --into as well");
  refused("--seat S235 --face 8mm", "expected a face wider than its hole");
}

}  // namespace plausible_entry_test
