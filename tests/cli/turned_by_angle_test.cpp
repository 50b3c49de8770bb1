// One-time bolts that were turned by their angle and have to be tightened again, since what was
// specified was wrong: they are stretched beyond yield by intent and are used once (VDI 2230 on
// yield- and angle-controlled tightening, from memory), so that new ones come first at every door.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace turned_by_angle_test {

namespace {

class Guide {
 public:
  explicit Guide(const std::string& more, const std::string& spec = "20 N·m, 90°") {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p1.bolts");
    trial.done("start " + trial.folder().file("p1.bolts") + " --machine P-1");
    trial.done("wrench TW2 --range '10..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint A1 --holds guide --size M10 --grade 10.9 --length 60mm --count 2 " + more);
    trial.done("joint A1 --spec '" + spec + "' --source 'P-1 manual p. 3'");
    trial.done("out A1/1-2 --bag B1");
    later();
    if (more.find("--one-time") != std::string::npos) trial.done("renew A1 --arrived");
    while (trial.run("tighten A1/1-2").code == 0) later();
    trial.done("stripe A1/1-2 --wiped");
    later();
    CHECK_THAT(trial.run("").told(), ContainsSubstring("Finished: nothing is open"));
  }
  void later() { trial.now += std::chrono::minutes(10); }
  nlohmann::json status() { return trial.run("status --json").json(); }
  std::string ids() {
    std::string ids;
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) ids += each["id"].get<std::string>() + ' ';
    return ids;
  }

  Trial trial;
};

}  // namespace

TEST_CASE("used one-time bolts are not led on to be turned again", "[cli][audit]") {
  Guide guide("--one-time");
  guide.trial.done("joint A1 --replace 4 --why 'misread' --spec '40 N·m, 90°'");
  CHECK_THAT(guide.ids(),
             ContainsSubstring("other-target:A1") && !ContainsSubstring("pass-skipped"));
  CHECK(guide.status()["next"]["command"] == "out A1/1-2");
  CHECK_THAT(guide.trial.run("audit").told(),
             ContainsSubstring("fit new ones") && ContainsSubstring("out A1/1-2"));
  CHECK_THAT(guide.trial.run("").told(), ContainsSubstring("1 joint with spent fasteners in"));
  guide.trial.typed = "d\nq\n";
  const auto guided = guide.trial.run("tighten A1");
  CHECK(guided.code == 1);
  CHECK_THAT(guided.said(), ContainsSubstring("was turned by its angle already (line") &&
                                ContainsSubstring("boltwitness out A1/1-2"));
  SECTION("typed all the same it is said and held up") {
    CHECK_THAT(guide.trial.done("tighten A1/1 --pass 1").said(),
               ContainsSubstring("take it out and fit a new one: out A1/01"));
    CHECK_THAT(guide.ids(), ContainsSubstring("turn-outside-its-window:A1/01"));
  }
  SECTION("as it is printed it comes to its end") {
    guide.trial.done("out A1/1-2 --bag B1");
    CHECK(guide.status()["next"]["command"] == "renew A1 --arrived");
    guide.later();
    guide.trial.done("renew A1 --arrived");
    guide.later();
    CHECK(guide.status()["next"]["command"] == "tighten A1");
    while (guide.trial.run("tighten A1/1-2").code == 0) guide.later();
    guide.trial.done("stripe A1/1-2 --wiped");
    CHECK_THAT(guide.trial.run("").told(), ContainsSubstring("Finished: nothing is open"));
  }
}

TEST_CASE("bolts that are used again are tightened by the new plan", "[cli]") {
  Guide guide("");
  guide.trial.done("joint A1 --replace 4 --why 'misread' --spec '40 N·m, 90°'");
  CHECK(guide.status()["next"]["command"] == "tighten A1");
}

TEST_CASE("a pass done by another plan is not called missing", "[cli][audit]") {
  Guide guide("", "60 N·m");
  SECTION("other passes") {
    guide.trial.done("joint A1 --replace 3 --why w --passes three-rounds");
  }
  SECTION("another torque") { guide.trial.done("joint A1 --replace 4 --why w --spec '62 N·m'"); }
  SECTION("a final value that waits") {
    guide.trial.done("joint A1 --replace 3 --why w --final-when 'the beam is level'");
  }
  CHECK_THAT(guide.ids(),
             ContainsSubstring("other-target:A1") && !ContainsSubstring("pass-skipped"));
  CHECK(guide.status()["next"]["command"] == "tighten A1");
}

}  // namespace turned_by_angle_test
