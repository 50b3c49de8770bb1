// The end of a job: what keeps it from being finished is counted alike on every screen, and what a
// machine at work asks for does not.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace finished_job_test {

namespace {

constexpr const char* kFinished = "Finished: nothing is open";

// A pump with joints of two bolts at 80 N·m.
class Pump {
 public:
  Pump() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p1.bolts");
    trial.done("start " + trial.folder().file("p1.bolts") + " --machine P-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  }
  void joint(const std::string& code, const std::string& more = "") {
    trial.done("joint " + code +
               " --holds cover --size M12x1.75 --grade 8.8 --length 90mm --count 2 --spec '80 N·m' "
               "--source 'P-1 manual p. 4' " +
               more);
  }
  void out(const std::string& code) {
    trial.done("out " + code + "/1-2 --bag B1");
    later(60);
  }
  void tighten(const std::string& code) {
    while (trial.run("tighten " + code + "/1-2").code == 0) {
    }
    later(60);
  }
  void stripe(const std::string& code, const std::string& more = "") {
    trial.done("stripe " + code + "/1-2 --wiped " + more);
    later(60);
  }
  void later(int minutes) { trial.now += std::chrono::minutes(minutes); }
  std::string status() { return trial.run("").told(); }
  std::string next() {
    return trial.run("status --json").json()["next"]["command"].get<std::string>();
  }
  std::size_t holds() {
    std::size_t holds = 0;
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) holds += each["level"] == "hold" ? 1U : 0U;
    return holds;
  }

  Trial trial;
};

}  // namespace

TEST_CASE("status and audit count alike what is to be settled", "[cli]") {
  Pump pump;
  pump.joint("A1", "--recheck '7 days'");
  pump.joint("B2");
  for (const auto* code : {"B2", "A1"}) pump.out(code);
  for (const auto* code : {"A1", "B2"}) {
    pump.tighten(code);
    pump.stripe(code);
  }
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  pump.later(8 * 24 * 60);
  // A check of its own: the work goes on, the job is not finished.
  auto audit = pump.trial.run("audit");
  CHECK(audit.code == 0);
  CHECK_THAT(audit.told(), ContainsSubstring("In order: no hold is open, 1 check to settle") &&
                               ContainsSubstring("re-check-overdue:A1:1-2:1-week TO SETTLE") &&
                               ContainsSubstring("1 check (1 to settle before it is finished)"));
  CHECK_THAT(pump.status(), ContainsSubstring("Not finished: 1 check to settle"));
  // Beside a hold.
  pump.trial.done("recheck B2/1 'turned 10°'");
  audit = pump.trial.run("audit");
  CHECK(audit.code == 1);
  CHECK_THAT(audit.told(), ContainsSubstring("Not in order: 1 hold open, 1 check to settle"));
  CHECK_THAT(pump.status(), ContainsSubstring("Not finished: 1 hold open, 1 check to settle, "));
  std::size_t to_settle = 0;
  const auto deviations = pump.trial.run("audit --json").json()["deviations"];
  for (const auto& each : deviations) to_settle += each["to_settle"] == true ? 1U : 0U;
  CHECK(to_settle == 2);
  CHECK(pump.trial.run("status --json").json()["to_settle"].size() == to_settle);
}

TEST_CASE("a hold point that is closed at the end is no open point", "[cli]") {
  Pump pump;
  pump.joint("A1");
  pump.trial.done("hold-point HV --what 'power locked out' --wait 10min");
  pump.trial.done("hold-point HV --begin");
  pump.later(11);
  pump.trial.done("hold-point HV --pass");
  pump.out("A1");
  pump.tighten("A1");
  // Closed while something behind it is open: it has to be begun again before that.
  pump.trial.done("hold-point HV --close");
  CHECK(pump.next() == "hold-point HV --begin");
  CHECK_THAT(pump.status(), ContainsSubstring("1 hold point shut"));
  pump.trial.done("hold-point HV --begin");
  pump.later(11);
  pump.trial.done("hold-point HV --pass");
  pump.stripe("A1");
  pump.trial.done("hold-point HV --close --note 'power back'");
  CHECK(pump.next().empty());
  CHECK(pump.trial.run("").code == 0);
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  CHECK_THAT(pump.trial.done("hold-point").told(),
             ContainsSubstring("closed again by KB") && ContainsSubstring("power back"));
  // What comes up behind it later asks for it again.
  pump.trial.done("recheck A1/1 'turned 10°'");
  CHECK(pump.next() == "hold-point HV --begin");
}

TEST_CASE("what is under a cover that is on has the cover opened first", "[cli]") {
  Pump pump;
  pump.joint("A1", "--critical");
  pump.joint("B2", "--covers A1");
  pump.joint("C3", "--covers B2");
  for (const auto* code : {"C3", "B2", "A1"}) pump.out(code);
  pump.tighten("A1");
  CHECK_THAT(pump.trial.done("tighten B2/1-2").said(),
             ContainsSubstring("B2 covers A1, and A1/1-2 is not checked by a second person yet and "
                               "A1/1-2 has no final stripe yet"));
  pump.tighten("B2");
  pump.tighten("C3");
  // The outermost first; typed as printed it makes no hold, and leads to the end.
  CHECK(pump.next() == "out C3/1-2");
  CHECK_THAT(pump.status(), ContainsSubstring("; B2, which covers it, is on"));
  const auto holds = pump.holds();
  for (int step = 0; step < 40 && !pump.next().empty(); ++step) {
    auto command = pump.next();
    INFO(command);
    if (command.find('/') == std::string::npos) command += "/1-2";  // the guided way
    if (const auto who = command.find("WHO"); who != std::string::npos) {
      command.replace(who, 3, "LM");
    }
    pump.trial.done(command);
    pump.later(10);
    CHECK(pump.holds() == holds);
  }
  CHECK(holds == 0);
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
}

TEST_CASE("what is proposed marks a joint before it goes under its cover", "[cli]") {
  Pump pump;
  pump.joint("A1");
  pump.joint("B2", "--covers A1");
  for (const auto* code : {"B2", "A1"}) pump.out(code);
  CHECK(pump.next() == "tighten A1");
  pump.tighten("A1");
  CHECK(pump.next() == "stripe A1/1-2 --wiped");
  pump.stripe("A1");
  CHECK(pump.next() == "tighten B2");
}

TEST_CASE("work under a cover that is on is remarked on at every door", "[cli]") {
  Pump pump;
  pump.joint("A1", "--critical");
  pump.joint("B2", "--covers A1");
  for (const auto* code : {"B2", "A1"}) pump.out(code);
  pump.tighten("A1");
  pump.tighten("B2");
  for (const auto* command :
       {"tighten A1/1-2 --check --by LM", "stripe A1/1-2 --wiped", "tighten A1/1 --pass 2",
        "out A1/1", "found A1/2 70s 80o --wrench TW2"}) {
    INFO(command);
    CHECK_THAT(pump.trial.done(command).said(), ContainsSubstring("B2 covers A1 and was on then"));
  }
}

TEST_CASE("a re-check is asked for once, unless it says every", "[cli]") {
  Pump pump;
  pump.joint("A1", "--recheck '7 days'");
  pump.joint("B2", "--recheck 'every 7 days'");
  CHECK_THAT(pump.trial.done("sequence B2").told(),
             ContainsSubstring("1 week and again every 1 week"));
  for (const auto* code : {"B2", "A1"}) pump.out(code);
  for (const auto* code : {"A1", "B2"}) {
    pump.tighten(code);
    pump.stripe(code);
  }
  // Too soon is no look after seven days.
  pump.later(2 * 24 * 60);
  for (const auto* code : {"A1", "B2"}) {
    pump.trial.done(std::string("recheck ") + code + "/1-2 aligned");
  }
  CHECK(pump.trial.done("recheck --json").json()["due"].size() == 2);
  pump.later(8 * 24 * 60);
  CHECK_THAT(pump.status(), ContainsSubstring("Not finished: 1 check to settle"));  // A1
  for (const auto* code : {"A1", "B2"}) {
    pump.trial.done(std::string("recheck ") + code + "/1-2 aligned");
  }
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  const auto due = pump.trial.done("recheck --json").json()["due"];
  REQUIRE(due.size() == 1);
  CHECK(due[0]["joint"] == "B2");
  CHECK(due[0]["after"] == "every 1 week");
  pump.later(8 * 24 * 60);
  // The next one is due: told, and the job stays finished.
  CHECK(pump.trial.run("recheck").code == 1);
  CHECK(pump.trial.run("").code == 0);
  CHECK_THAT(pump.status(), ContainsSubstring("Finished: nothing is open, 1 look due again") &&
                                ContainsSubstring("next: boltwitness recheck"));
  CHECK(pump.trial.run("status --json").json()["looks_due"].size() == 1);
  CHECK_THAT(pump.trial.done("audit").told(), ContainsSubstring("re-check-overdue:B2:1-2:1-week") &&
                                                  !ContainsSubstring("TO SETTLE"));
  for (const auto* refused :
       {"joint C3 --recheck '7 days' 'every 1 week'", "joint C3 --recheck every"}) {
    CHECK(pump.trial.run(std::string(refused) + " --holds lid --size M8 --grade 8.8 --count 2")
              .code == 2);
  }
}

TEST_CASE("an hour meter once, whether the look noted it or another line did", "[cli]") {
  Pump pump;
  pump.joint("A1", "--recheck '50 running h'");
  pump.out("A1");
  pump.tighten("A1");
  pump.stripe("A1", "--counter '1240 running h'");
  pump.trial.done("recheck A1/1 aligned --counter '1280 running h'");
  pump.trial.done("recheck A1/1-2 aligned --counter '1290 running h'");
  CHECK(pump.trial.done("recheck --counter '9000 running h' --json").json()["due"].empty());
}

TEST_CASE("a reading of another counter than the re-check goes by is refused", "[cli]") {
  Pump pump;
  pump.joint("A1", "--recheck '50 running h'");
  pump.joint("B2", "--recheck '500 km'");
  pump.joint("C3");
  for (const auto* code : {"C3", "B2", "A1"}) pump.out(code);
  for (const auto* code : {"A1", "B2", "C3"}) pump.tighten(code);
  for (const auto* command : {"stripe A1/1-2 --wiped --counter '1240 km'",
                              "stripe B2/1-2 --wiped --counter '1240 running h'"}) {
    const auto refused = pump.trial.run(command);
    CHECK(refused.code == 2);
    CHECK_THAT(refused.said(), ContainsSubstring("running h") && ContainsSubstring("km"));
  }
  pump.stripe("A1", "--counter '1240 running h'");
  pump.stripe("B2", "--counter '800 mi'");  // miles are kilometres
  pump.stripe("C3", "--counter '12 km'");   // asks for nothing
  const auto refused = pump.trial.run("recheck A1/1-2 aligned --counter '1290 km'");
  CHECK(refused.code == 2);
  CHECK_THAT(
      refused.said(),
      ContainsSubstring("\"1290 km\" is in km, and A1 is looked at again after 50 running h"));
  pump.trial.done("recheck --counter '1290 km'");
  pump.trial.done("joint B2 --replace 5 --without recheck --why 'none is asked for'");
  CHECK(pump.trial.run("recheck --counter '1290 km'").code == 2);
}

TEST_CASE("a fluid that was filled before it was drained is not back", "[cli]") {
  Pump pump;
  pump.joint("A1");
  pump.out("A1");
  pump.trial.done("fluid 'gear oil' --drained '2 L'");
  pump.tighten("A1");
  pump.stripe("A1");
  const auto early = pump.trial.done("fluid 'gear oil' --filled '2 L' --at " +
                                     record::write_utc(pump.trial.now - std::chrono::hours(3)));
  CHECK_THAT(early.told(), ContainsSubstring("still to go back at least 2 L") &&
                               ContainsSubstring("2 L went in before any of it was drained"));
  CHECK_THAT(pump.status(), ContainsSubstring("1 fluid not back"));
  CHECK(pump.next() == "fluid \"gear oil\" --filled \"2 L\"");
  pump.trial.done("fluid 'gear oil' --filled '2 L'");
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
}

TEST_CASE("a fluid of which far more or less went in is looked at until it is explained", "[cli]") {
  Pump pump;
  pump.joint("A1");
  pump.out("A1");
  pump.tighten("A1");
  pump.stripe("A1");
  pump.trial.done("fluid 'gear oil' --drained '1 L'");
  CHECK_THAT(pump.trial.done("audit").told(), !ContainsSubstring("fluid-balance"));
  pump.trial.done("fluid 'gear oil' --filled '1.1 L'");
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  pump.trial.done("fluid 'gear oil' --filled '4 L'");
  CHECK_THAT(pump.trial.done("audit").told(),
             ContainsSubstring("fluid-balance:gear-oil") &&
                 ContainsSubstring("1 L came out and 5.1 L went in, 4.1 L more"));
  CHECK_THAT(pump.status(), ContainsSubstring("Not finished: 1 check to settle"));
  const auto settle = [&](const std::string& id) {
    pump.later(5);
    pump.trial.done("settle " + id + " --as use-as-is --why 'was far too low before'");
  };
  settle("fluid-balance:gear-oil");
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  pump.trial.done("fluid coolant --drained '5 L'");
  pump.trial.done("fluid coolant --filled '4 L'");
  CHECK_THAT(pump.status(), ContainsSubstring("1 fluid not back"));
  settle("fluid-balance:coolant");
  CHECK_THAT(pump.status(), ContainsSubstring(kFinished));
  // More of it is another matter.
  pump.trial.done("fluid coolant --drained '1 L'");
  CHECK_THAT(pump.status(), ContainsSubstring("1 fluid not back"));
}

}  // namespace finished_job_test
