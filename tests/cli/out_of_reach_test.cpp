// What lies under a cover or behind a shut hold point: what is said of it is held against what
// could be reached, and nothing is proposed that cannot be done.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace out_of_reach_test {

namespace {

constexpr const char* kFinished = "Finished: nothing is open";

// A press with a joint A1 under a cover B2, and one E5 that is open, two bolts each at 80 N·m.
class Press {
 public:
  explicit Press(bool has_hold_point = false) {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p1.bolts");
    trial.done("start " + trial.folder().file("p1.bolts") + " --machine P-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    joint("A1");
    joint("B2", "--covers A1");
    joint("E5");
    if (!has_hold_point) return;
    trial.done("hold-point HV --what 'power locked out' --wait 10min");
    trial.done("hold-point HV --begin");
    later(11);
    trial.done("hold-point HV --pass");
  }
  void joint(const std::string& code, const std::string& more = "") {
    trial.done("joint " + code +
               " --holds plate --size M12x1.75 --grade 8.8 --length 90mm --count 2 --spec '80 N·m' "
               "--source 'P-1 manual p. 4' " +
               more);
  }
  void out(const std::string& code) {
    trial.done("out " + code + "/1-2 --bag B1");
    later(10);
  }
  void finish(const std::string& code) {
    while (trial.run("tighten " + code + "/1-2").code == 0) {
    }
    later(10);
    trial.done("stripe " + code + "/1-2 --wiped");
    later(10);
  }
  void finish_all() {
    for (const auto* code : {"B2", "A1", "E5"}) out(code);
    for (const auto* code : {"A1", "B2", "E5"}) finish(code);
  }
  void later(int minutes) { trial.now += std::chrono::minutes(minutes); }
  std::string status() { return trial.run("").told(); }
  nlohmann::json next() { return trial.run("status --json").json()["next"]; }
  std::string level_of(const std::string& id) {
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) {
      if (each["id"] == id) return each["level"].get<std::string>();
    }
    return "";
  }

  Trial trial;
};

}  // namespace

TEST_CASE("a cover that never came off contradicts the work beneath it", "[cli][audit]") {
  Press press;
  press.out("A1");
  press.out("E5");
  press.finish("A1");
  press.finish("B2");
  press.finish("E5");
  CHECK_THAT(press.status(), ContainsSubstring("never-out:B2"));
  press.trial.done("settle never-out:B2 --as use-as-is --why 'it never came off'");
  CHECK(press.level_of("under-cover:A1:B2") == "hold");
  CHECK(press.trial.run("audit").code == 1);
  CHECK_THAT(press.trial.run("audit").told(),
             ContainsSubstring("decided that B2, which covers it, never came off"));
  CHECK_THAT(press.status(), !ContainsSubstring(kFinished));
  // A joint beneath which nothing was touched may well have stayed.
  CHECK(press.level_of("under-cover:E5:B2").empty());
  // It did come off, and nobody had written it down.
  const auto line = press.trial.run("history --json").json()["lines"].size();
  press.trial.done("strike " + std::to_string(line) + " --why 'it did come off'");
  press.trial.done("out B2/1-2 --bag B1 --at " +
                   record::write_utc(press.trial.now - std::chrono::hours(3)));
  CHECK(press.level_of("under-cover:A1:B2").empty());
}

TEST_CASE("a look at a stripe under a cover that is on is told", "[cli][audit]") {
  Press press;
  press.finish_all();
  CHECK_THAT(press.status(), ContainsSubstring(kFinished));
  CHECK_THAT(press.trial.done("recheck A1/1-2 aligned").said(),
             ContainsSubstring("B2 covers A1 and was on then"));
  CHECK(press.level_of("looked-under-cover:A1:B2") == "check");
  CHECK(press.trial.done("recheck E5/1-2 aligned").err.empty());
  SECTION("seen through an opening") {
    press.trial.done("settle looked-under-cover:A1:B2 --as use-as-is --why 'through the window'");
    CHECK_THAT(press.status(), ContainsSubstring(kFinished));
  }
  SECTION("looked at again with the cover off") {
    press.later(10);
    press.out("B2");
    press.trial.done("recheck A1/1-2 aligned");
    CHECK(press.level_of("looked-under-cover:A1:B2").empty());
  }
  SECTION("one that was found turned is taken, and is the hold that it is") {
    press.trial.done("recheck A1/1-2 'turned 10°'");
    CHECK(press.level_of("stripe-turned:A1") == "hold");
    CHECK(press.level_of("looked-under-cover:A1:B2").empty());
  }
}

TEST_CASE("a look that is due under a cover has the cover opened first", "[cli]") {
  Press press;
  press.trial.done("joint A1 --replace 3 --why w --recheck '7 days'");
  press.finish_all();
  press.later(8 * 24 * 60);
  CHECK(press.next()["command"] == "out B2/1-2");
  CHECK_THAT(
      press.next()["why"].get<std::string>(),
      ContainsSubstring("re-check-overdue:A1") && ContainsSubstring("B2, which covers A1, is on"));
  CHECK_THAT(press.trial.run("audit").told(),
             ContainsSubstring("what covers it is on: out B2/1-2; then look whether"));
}

TEST_CASE("a look that repeats under a cover has the cover opened first", "[cli]") {
  Press press;
  press.trial.done("joint A1 --replace 3 --why w --recheck 'every 7 days'");
  press.finish_all();
  press.later(8 * 24 * 60);
  press.out("B2");
  press.trial.done("recheck A1/1-2 aligned");
  press.finish("B2");
  press.later(8 * 24 * 60);
  CHECK_THAT(press.status(), ContainsSubstring(kFinished));
  CHECK(press.next()["command"] == "out B2/1-2");
}

TEST_CASE("what is proposed behind a hold point that was shut at the end opens that", "[cli]") {
  Press press(true);
  press.finish_all();
  press.trial.done("hold-point HV --close");
  CHECK_THAT(press.status(), ContainsSubstring(kFinished));
  const auto line = [&](const std::string& says) {
    const auto lines = press.trial.run("history --json").json()["lines"];
    for (const auto& each : lines) {
      if (each["says"].get<std::string>().find(says) != std::string::npos) {
        return std::to_string(each["line"].get<int>());
      }
    }
    return std::string();
  };
  SECTION("a pass that was set too low") {
    press.trial.done("tighten E5/1-2 --replace " + line("E5/1-2 pass 2") + " --why w --set 60");
  }
  SECTION("an item that went back when the joint was closed") {
    press.trial.done("item CL --what clips --count 2 --before E5 --at " +
                     record::write_utc(press.trial.now - std::chrono::hours(5)));
    press.trial.done("item CL --back 2");
    CHECK(press.level_of("closed-over:E5:CL") == "hold");
  }
  const auto next = press.next();
  INFO(press.status());
  CHECK(next["command"] == "hold-point HV --begin");
  CHECK_THAT(next["why"].get<std::string>(), ContainsSubstring("before E5: hold point HV"));
  press.trial.done("hold-point HV --begin");
  // While its wait runs nothing is proposed that would be refused.
  CHECK(press.next()["command"] == "");
  CHECK_THAT(press.next()["why"].get<std::string>(), ContainsSubstring("of the wait"));
  press.later(11);
  CHECK(press.next()["command"] == "hold-point HV --pass");
  press.trial.done("hold-point HV --pass");
  const auto command = press.next()["command"].get<std::string>();
  INFO(command);
  CHECK(press.trial.run(command).code == 0);
}

TEST_CASE("what is proposed under a cover that is on opens that", "[cli]") {
  Press press;
  press.finish_all();
  press.trial.done("recheck A1/2 'turned 20°'");
  CHECK(press.next()["command"] == "out B2/1-2");
}

TEST_CASE("a pass left out under its cover is no better than one not done", "[cli][audit]") {
  Press press;
  for (const auto* code : {"B2", "A1", "E5"}) press.out(code);
  press.trial.done("tighten A1/1-2 --pass 1");
  SECTION("not done") {}
  SECTION("left out") { press.trial.done("tighten A1/1-2 --pass 2 --skip 'no time'"); }
  SECTION("left out before the one that was done") {
    press.trial.done("tighten E5/1-2 --pass 1");
    press.trial.done("tighten A1/1-2 --pass 1 --replace 12 --why w --skip 'no time'");
    press.trial.done("tighten A1/1-2 --pass 2");
  }
  press.later(10);
  press.finish("B2");
  CHECK(press.level_of("joint-order:B2:A1") == "hold");
  // As it asks: open it, do it, close it.
  press.out("B2");
  press.trial.run("tighten A1/1-2 --pass 1");
  press.trial.done("tighten A1/1-2 --pass 2");
  press.later(10);
  press.finish("B2");
  CHECK(press.level_of("joint-order:B2:A1").empty());
}

}  // namespace out_of_reach_test
