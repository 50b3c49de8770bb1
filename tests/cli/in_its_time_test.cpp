// Lines dated before others: each is judged by the state at the time when it was done, and none is
// lost without a word.

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace in_its_time_test {

namespace {

// A cover of four bolts at 80 N·m that are out: two rounds and a check.
class Cover {
 public:
  Cover() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p3.bolts");
    trial.done("start " + trial.folder().file("p3.bolts") + " --machine 'pump 3'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint A1 --holds cover --size M12x1.75 --grade 8.8 --length 90mm --count 4 "
        "--spec '80 N·m' --source 'P-3 manual p. 4'");
    trial.done("out A1/1-4 --bag B1");
    later(60);
  }
  void later(int minutes) { trial.now += std::chrono::minutes(minutes); }
  void tighten() {
    for (int pass = 0; pass < 3; ++pass) trial.done("tighten A1/1-4");
    later(60);
  }
  void finish() {
    tighten();
    trial.done("stripe A1/1-4 --wiped");
    later(60);
  }
  [[nodiscard]] std::string ago(int minutes) const {
    return " --at " + record::write_utc(trial.now - std::chrono::minutes(minutes));
  }
  std::string status() { return trial.run("sequence --status").out; }
  std::string audit_ids() {
    std::string ids;
    const auto audit = trial.run("audit --json").json();
    for (const auto& deviation : audit["deviations"]) {
      ids += deviation["id"].get<std::string>() + ' ';
    }
    return ids;
  }

  Trial trial;
};

constexpr const char* kFinished = "Finished: nothing is open";

}  // namespace

TEST_CASE("a turned stripe counts when it was seen, whatever was drawn since", "[cli]") {
  Cover cover;
  cover.finish();
  cover.trial.done("stripe A1/1-4 --wiped");  // once more, an hour later
  cover.later(60);
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
  cover.trial.done("recheck A1/1 'turned 20°'" + cover.ago(90));
  CHECK_THAT(cover.status(), ContainsSubstring("A1/01: final stripe found turned"));
}

TEST_CASE("a look at a time when no stripe stood is refused", "[cli]") {
  Cover cover;
  cover.finish();
  const auto refused = cover.trial.run("recheck A1/1 'turned 20°'" + cover.ago(90));
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("A1/01 had no final stripe on 2026-06-01 09:") &&
                                 ContainsSubstring("(line 9)"));
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
  // Of the joint as it was before it came out: kept, and said that it asks for nothing now.
  cover.trial.done("out A1/1");
  cover.later(60);
  CHECK_THAT(cover.trial.done("recheck A1/1 'turned 20°'" + cover.ago(90)).said(),
             ContainsSubstring("A1/01 has come out since (line 10)"));
}

TEST_CASE("a stripe that is more than half a turn off is asked about", "[cli]") {
  Cover cover;
  cover.finish();
  const auto queried = cover.trial.run("recheck A1/1 'turned 400°'");
  CHECK(queried.code == 2);
  CHECK_THAT(queried.said(),
             ContainsSubstring("half a turn (180°) at most") && ContainsSubstring("--really"));
  cover.trial.done("recheck A1/1 'turned 400°' --really");
  cover.trial.done("recheck A1/2 'turned 180°'");
}

TEST_CASE("a repair after the final torque asks for the passes once more", "[cli]") {
  Cover cover;
  cover.trial.done("out A1/1 --replace 5 --why 'one was tight'");
  cover.trial.done("out A1/2-3 --bag B1");
  cover.trial.done("out A1/4 --broke tight --damaged-thread hole --bag B1");
  cover.later(10);
  cover.trial.done("settle damaged-thread:A1/04 --as repair --why 'thread insert'");
  const auto early =
      cover.trial.run("settle damaged-thread:A1/04 --done 'insert in'" + cover.ago(5));
  CHECK(early.code == 1);
  CHECK_THAT(early.said(), ContainsSubstring("damaged-thread:A1/04 was decided in") &&
                               ContainsSubstring("after this"));
  CHECK_THAT(
      cover.trial.done("tighten A1/4").said(),
      ContainsSubstring("repair at 4, decided in line 10, and nothing says that it was done: "
                        "settle damaged-thread:A1/04 --done"));
  cover.trial.done("tighten A1/1-3");
  for (int pass = 2; pass <= 3; ++pass) cover.trial.done("tighten A1/1-4");
  cover.trial.done("stripe A1/1-4 --wiped");
  cover.later(10);
  cover.trial.done("settle damaged-thread:A1/04 --done 'insert M12 fitted'");
  CHECK_THAT(cover.status(), ContainsSubstring("A1/04: pass 1 open"));
  CHECK(cover.trial.run("stripe A1/4 --wiped").code == 1);
  for (int pass = 1; pass <= 3; ++pass) cover.trial.done("tighten A1/4");
  cover.trial.done("stripe A1/4 --wiped");
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
}

TEST_CASE("work dated before a hold point was put up is named while nobody knows", "[cli]") {
  Cover cover;
  cover.trial.done("hold-point HV --what 'rails dead' --before A1");
  cover.trial.done("hold-point HV --pass");
  cover.later(10);
  CHECK_THAT(cover.trial.done("tighten A1/1-4" + cover.ago(30)).said(),
             ContainsSubstring("nothing tells whether it stood before") &&
                 ContainsSubstring("recorded as it happened"));
  cover.trial.done("tighten A1/1-4");
  cover.trial.done("tighten A1/1-4");
  cover.trial.done("stripe A1/1-4 --wiped");
  CHECK_THAT(cover.status(), !ContainsSubstring(kFinished));
  const auto audit = cover.trial.run("audit --json").json()["deviations"][0];
  CHECK(audit["id"] == "hold-point:A1:HV:before");
  // Its own time, as the audit suggests: put up when it was entered, and so after the work.
  const auto advice = audit["do"].get<std::string>();
  auto command = advice.substr(advice.find("hold-point HV"));
  std::ranges::replace(command, '"', '\'');
  INFO(command);
  cover.trial.done(command);
  cover.trial.done("hold-point HV --pass");
  CHECK(cover.audit_ids().empty());
}

TEST_CASE("a hold point is not passed before it was put up", "[cli]") {
  Cover cover;
  cover.trial.done("hold-point HV --what 'rails dead' --wait 10min");
  for (const std::string step : {"--begin", "--pass"}) {
    INFO(step);
    const auto refused = cover.trial.run("hold-point HV " + step + cover.ago(30));
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("hold point HV was put up on 2026-06-01 09:00") &&
                                   ContainsSubstring("--replace 6"));
  }
  CHECK(cover.trial.done("history --json").json()["lines"].size() == 6);
}

TEST_CASE("a tightening dated before the fastener came out is said and named", "[cli]") {
  Cover cover;
  CHECK_THAT(cover.trial.done("tighten A1/2" + cover.ago(120)).said(),
             ContainsSubstring("A1/02 came out on 2026-06-01 08:00 (line 5), after this"));
  CHECK_THAT(cover.audit_ids(), ContainsSubstring("tightened-before-out:A1/02"));
  CHECK_THAT(cover.status(), ContainsSubstring("A1/1-4: pass 1 open"));
}

TEST_CASE("a pass dated before the one that it follows is said at every door, and named", "[cli]") {
  Cover cover;
  cover.trial.done("tighten A1/1");
  SECTION("by the command") {
    const auto said = cover.trial.done("tighten A1/1 --pass 2" + cover.ago(10)).said();
    CHECK_THAT(said,
               ContainsSubstring("line 6 of 2026-06-01 09:00 is later than this, and pass 2 "
                                 "has to be done after it at A1/01: this counts for nothing"));
    const auto audit = cover.trial.run("audit --json").json()["deviations"][0];
    CHECK(audit["id"] == "dated-too-early:A1/01");
    CHECK_THAT(audit["says"].get<std::string>(), ContainsSubstring("line 7 did pass 2 2026-06-01"));
    // With its own time, as the audit suggests, it counts.
    cover.later(10);
    auto command = audit["do"].get<std::string>();
    command = command.substr(command.find("tighten"));
    const auto at = record::write_utc(cover.trial.now);
    command.replace(command.find("--at ..."), 8, "--at " + at);
    command.replace(command.find("--why ..."), 9, "--why 'time mistyped'");
    CHECK_THAT(cover.trial.done(command).said(), !ContainsSubstring("counts for nothing"));
  }
  SECTION("by a table") {
    const auto table = cover.trial.folder().file("work.csv");
    std::ofstream(table) << "address,pass,wrench,set,unit,at\n"
                         << "A1/1,2,TW2,80,N·m,2026-06-01T08:50:00Z\n";
    CHECK_THAT(cover.trial.done("import " + table).said(),
               ContainsSubstring("A1/01: rows are dated before the line that they have to follow, "
                                 "and count for nothing: audit names their lines"));
    CHECK_THAT(cover.audit_ids(), ContainsSubstring("dated-too-early:A1/01"));
  }
  SECTION("by a table with one from before it came out") {
    const auto table = cover.trial.folder().file("work.csv");
    std::ofstream(table) << "address,pass,wrench,set,unit,at\n"
                         << "A1/2,1,TW2,56,N·m,2026-06-01T07:00:00Z\n";
    CHECK_THAT(cover.trial.done("import " + table).said(),
               ContainsSubstring("A1/02: rows are dated before it came out"));
    CHECK_THAT(cover.audit_ids(), ContainsSubstring("tightened-before-out:A1/02"));
  }
  // The pass stands open, and is done anew without a word about the line from before.
  SECTION("done anew") {
    cover.trial.done("tighten A1/1 --pass 2" + cover.ago(10));
    cover.later(10);
    for (int pass = 0; pass < 3; ++pass) cover.trial.done("tighten A1/1-4");
    CHECK_THAT(cover.audit_ids(), !ContainsSubstring("dated-too-early"));
  }
}

TEST_CASE("a stripe and a check dated before the final value are refused", "[cli]") {
  Cover cover;
  cover.tighten();
  for (const std::string command : {"stripe A1/1 --wiped", "tighten A1/1 --check --by LM"}) {
    INFO(command);
    const auto refused = cover.trial.run(command + cover.ago(90));
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(),
               ContainsSubstring("A1/01 reached its final value on 2026-06-01 09:00"));
    cover.trial.done(command + cover.ago(30));
  }
}

TEST_CASE("the order is kept as typed, shown so and judged so", "[cli]") {
  Cover cover;
  CHECK_THAT(cover.trial.done("tighten A1/4,3,2,1").said(),
             ContainsSubstring("the order of pass 1 asks for 1, 3, 2, 4 next"));
  CHECK_THAT(cover.trial.done("history A1").out, ContainsSubstring("A1/4,3,2,1 pass 1"));
  const auto audit = cover.trial.run("audit --json").json()["deviations"][0];
  CHECK(audit["id"] == "position-order:A1:pass-1");
  CHECK_THAT(audit["says"].get<std::string>(),
             ContainsSubstring("pass 1 went 4, 3, 2, 1 where the order is 1, 3, 2, 4"));
  // Two that were taken out of turn, in one line of two.
  cover.trial.done("tighten A1/1,2");
  cover.trial.done("tighten A1/4,3");
  CHECK_THAT(cover.audit_ids(), ContainsSubstring("position-order:A1:pass-2"));
  cover.trial.done("tighten A1/1-4");
  // What is advised clears both.
  const auto advice = audit["do"].get<std::string>();
  const auto command = advice.substr(advice.find("tighten A1"));
  CHECK(command == "tighten A1/1,2,3,4 --pass 3");
  cover.trial.done(command);
  CHECK_THAT(cover.audit_ids(), !ContainsSubstring("-order:"));
  CHECK_THAT(cover.trial.done("export tightenings").out, ContainsSubstring("\"A1/4,3,2,1\",1"));
}

TEST_CASE("a deviation of the order of passes is cleared by what it advises", "[cli]") {
  Cover cover;
  cover.trial.done("tighten A1/1-3");
  cover.trial.done("tighten A1/1 --pass 2");
  cover.trial.done("tighten A1/4 --pass 1");
  cover.trial.done("tighten A1/2-4 --pass 2");
  cover.trial.done("tighten A1/1-4");
  const auto audit = cover.trial.run("audit --json").json()["deviations"][0];
  CHECK(audit["id"] == "pass-order:A1:pass-2");
  const auto advice = audit["do"].get<std::string>();
  const auto first = advice.find("tighten A1");
  const auto then = advice.find(", then tighten A1");
  REQUIRE(then != std::string::npos);
  cover.trial.done(advice.substr(first, then - first));
  cover.trial.done(advice.substr(then + 7));
  CHECK_THAT(cover.audit_ids(), !ContainsSubstring("-order:"));
}

TEST_CASE("what was seen of a slackened fastener is told before it is striped anew", "[cli]") {
  Cover cover;
  cover.finish();
  cover.trial.done("recheck A1/2 'turned 20°'");
  CHECK_THAT(cover.trial.done("tighten A1/2").said(),
             ContainsSubstring("nothing tells what was seen of thread, face and seat (--seen)"));
  CHECK_THAT(cover.status(), ContainsSubstring("A1/02: tell what was seen of thread"));
  for (int pass = 2; pass <= 4; ++pass) cover.trial.done("tighten A1/2");
  const auto refused = cover.trial.run("stripe A1/2 --wiped");
  CHECK(refused.code == 1);
  const auto advice = refused.said();
  auto command = advice.substr(advice.find("tighten A1/02"));
  std::ranges::replace(command, '"', '\'');
  INFO(command);
  cover.trial.done(command);
  cover.trial.done("stripe A1/2 --wiped");
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
  CHECK_THAT(cover.trial.done("history A1/2").out, ContainsSubstring("seen: what thread"));
}

TEST_CASE("what is slackened after its final value has the passes before it again", "[cli]") {
  Cover cover;
  cover.finish();
  cover.trial.done("recheck A1/2 'turned 20°'");
  cover.trial.done("tighten A1/2 --seen clean");
  for (int pass = 2; pass <= 4; ++pass) cover.trial.done("tighten A1/2");
  cover.trial.done("tighten A1/2 --pass 1 --seen 'still clean'");
  CHECK(cover.trial.run("stripe A1/2 --wiped").code == 1);
  CHECK_THAT(cover.status(), ContainsSubstring("A1/02: pass 2 open"));
}

TEST_CASE("one-time fasteners that are used again as decided are not to be bought", "[cli]") {
  Cover cover;
  cover.trial.done("joint A1 --one-time --replace 3 --why 'one-time they are'");
  CHECK_THAT(cover.trial.done("sequence").out,
             ContainsSubstring("one-time fasteners, fit new ones (4)"));
  cover.trial.done("settle one-time-fastener:A1 --as use-as-is --why 'run with the maker'");
  CHECK_THAT(cover.trial.done("sequence").out,
             ContainsSubstring("A1: one-time fasteners, 4 used once more as decided") &&
                 !ContainsSubstring("fit new ones"));
  CHECK_THAT(cover.trial.done("renew").out, !ContainsSubstring("A1"));
}

TEST_CASE("new ones that were in before their arrival was entered get its own time", "[cli]") {
  Cover cover;
  cover.trial.done("joint A1 --one-time --replace 3 --why 'one-time they are'");
  cover.finish();
  cover.trial.done("renew A1 --arrived");
  const auto deviation = cover.trial.run("audit --json").json()["deviations"][0];
  CHECK(deviation["id"] == "one-time-fastener:A1:old-in");
  const auto advice = deviation["do"].get<std::string>();
  auto command = advice.substr(advice.find("renew A1/1-4 --arrived"));
  std::ranges::replace(command, '"', '\'');
  INFO(command);
  cover.trial.done(command);
  CHECK(cover.audit_ids().empty());
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
}

TEST_CASE("new bolts between the passes may be recorded as out in between", "[cli]") {
  Cover cover;
  cover.trial.done(
      "joint A2 --holds head --size M10x1.5 --grade 8.8 --count 2 "
      "--spec '30 N·m, new bolts, 30 N·m, +60°' --source 'P-3 manual p. 9'");
  cover.trial.done("out A2/1-2 --bag B2");
  cover.trial.done("tighten A2/1-2");
  cover.later(10);
  cover.trial.done("renew A2 --arrived");
  cover.trial.done("out A2/1-2 --bag B2");
  cover.trial.done("tighten A2/1-2");
  CHECK_THAT(cover.audit_ids(), !ContainsSubstring("pass-skipped"));
  CHECK_THAT(cover.status(), !ContainsSubstring("A2/1-2: pass 1") &&
                                 !ContainsSubstring("A2/1-2: pass 2") &&
                                 ContainsSubstring("A2/1-2: pass 3 open"));
}

TEST_CASE("finals of a wrench that was struck do not stand", "[cli]") {
  Cover cover;
  cover.finish();
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
  cover.trial.done("strike 2 --why 'another wrench'");
  CHECK_THAT(cover.audit_ids(), ContainsSubstring("stray-entry:A1"));
  CHECK_THAT(cover.status(), ContainsSubstring("A1/1-4: pass 1 open"));
  cover.trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
}

TEST_CASE("a decision is not dated before what it judges, nor ahead of the clock", "[cli]") {
  Cover cover;
  cover.trial.done("tighten A1/1-4");
  cover.trial.done("tighten A1/1-4");
  cover.later(60);
  cover.trial.done("tighten A1/1-4 --set 60 --pass 3");
  cover.later(60);
  const std::string settle = "settle under-torqued:A1 --as re-torque --why low";
  const auto before = cover.trial.run(settle + cover.ago(90));
  CHECK(before.code == 1);
  CHECK_THAT(before.said(), ContainsSubstring("under-torqued:A1") &&
                                ContainsSubstring("rests on line") && ContainsSubstring("--at"));
  const auto ahead = cover.trial.run(settle + cover.ago(-30));
  CHECK(ahead.code == 2);
  CHECK_THAT(ahead.said(), ContainsSubstring("lies ahead of this machine's clock"));
  CHECK(cover.trial.run("audit").code == 1);
  CHECK_THAT(cover.trial.done(settle).said(),
             ContainsSubstring("Not in order") && ContainsSubstring("1 decided and not done"));
  CHECK(cover.trial.run("audit").code == 1);
}

TEST_CASE("what came off is not put back before it came off", "[cli]") {
  Cover cover;
  cover.trial.done("item CL1 --count 3 --what clips --before A1");
  cover.later(60);
  const auto refused = cover.trial.run("item CL1 --back 3" + cover.ago(120));
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("CL1 came off on") && ContainsSubstring("--at"));
  cover.trial.done("item CL1 --back 3" + cover.ago(30));
}

TEST_CASE("a one-time fastener that turned is not tightened a third time", "[cli]") {
  Cover cover;
  cover.trial.done(
      "joint H1 --holds head --size M10 --grade 10.9 --length 80mm --count 2 --one-time --spec "
      "'40 N·m' --source 'P-3 manual p. 9'");
  cover.trial.done("out H1/1-2 --bag B2");
  cover.trial.done("renew H1 --arrived");
  while (cover.trial.run("tighten H1/1-2").code == 0) {
  }
  cover.trial.done("stripe H1/1-2 --wiped");
  cover.finish();
  CHECK_THAT(cover.status(), ContainsSubstring(kFinished));
  cover.trial.done("recheck H1/2 'turned 12°'");
  cover.later(60);
  const auto list = cover.trial.run("renew").out;
  CHECK_THAT(list, ContainsSubstring("H1") && ContainsSubstring("found turned"));
  CHECK(cover.trial.run("stripe H1/2 --wiped").code == 1);
}

TEST_CASE("a line that takes the place of another is struck when that is done", "[cli]") {
  Cover cover;
  cover.later(600);
  cover.trial.done("wrench TW2 --graduation '2 N·m' --replace 2 --why 'misread'");
  const auto lines = cover.trial.done("history --json").json()["lines"];
  const auto& before = lines.at(1);
  const auto& after = lines.back();
  CHECK(after["done_at"] == before["done_at"]);
  CHECK(before["struck"]["done_at"] == after["entered_at"]);
}

}  // namespace in_its_time_test
