// What is odd about a name or a date is said where it is entered.

#include <fstream>

#include "support/catch.h"
#include "support/trial.h"

namespace entry_checks_test {

namespace {

Trial& set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p2.bolts");
  trial.done("start " + trial.folder().file("p2.bolts") + " --machine 'pump 2'");
  return trial;
}

constexpr const char* kJoint = " --holds lid --size M12 --grade 8.8 --count 4";

}  // namespace

TEST_CASE("a joint whose code is another's but for noughts is asked about", "[act]") {
  Trial trial;
  set_up(trial).done(std::string("joint J02") + kJoint);
  for (const std::string code : {"J2", "j2", "J002"}) {
    INFO(code);
    const auto refused = trial.run("joint " + code + kJoint);
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("J02 is known already"));
  }
  for (const std::string code : {"J20", "J12", "J2a"}) {
    INFO(code);
    CHECK(trial.run("joint " + code + kJoint).code == 0);
  }
  CHECK(trial.run(std::string("joint J2 --really") + kJoint).code == 0);
}

TEST_CASE("a table asks about such a code too", "[act]") {
  Trial trial;
  set_up(trial).done(std::string("joint J02") + kJoint);
  const auto file = trial.folder().file("joints.csv");
  std::ofstream(file) << "joint,holds,size,grade,count\nJ2,lid,M12,8.8,4\n";
  const auto refused = trial.run("import " + file);
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(), ContainsSubstring("J02 is known already"));
}

TEST_CASE("a wrench entered out of calibration says so at once", "[act]") {
  Trial trial;
  set_up(trial);
  const auto old =
      trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2024-03-02");
  CHECK_THAT(old.said(), ContainsSubstring("TW2 has been out of calibration since 2025-03-02"));
  const auto valid = trial.done("wrench TW2 --calibrated 2026-03-02");
  CHECK(valid.err.empty());
}

TEST_CASE("a table tells what is remarkable about its rows, as the command does", "[act]") {
  Trial trial;
  set_up(trial);
  const auto wrenches = trial.folder().file("wrenches.csv");
  std::ofstream(wrenches) << "name,range,graduation,calibrated\nTW7,20..200 N·m,1 N·m,2024-03-02\n"
                             "TW8,20..200 N·m,1 N·m,2026-03-02\n";
  const auto old = trial.done("import " + wrenches);
  CHECK_THAT(old.said(), ContainsSubstring("TW7 has been out of calibration since 2025-03-02") &&
                             !ContainsSubstring("TW8"));
  const auto joints = trial.folder().file("joints.csv");
  std::ofstream(joints) << "joint,holds,size,grade,count,after,spec\n"
                           "J41,lid,M8,8.8,4,J42,25 N·m\nJ42,cover,M8,8.8,4,J49,4 N·m\n";
  const auto taken = trial.done("import " + joints);
  CHECK_THAT(taken.said(), ContainsSubstring("below the plausible") &&
                               ContainsSubstring("J49 is not in the logbook yet") &&
                               !ContainsSubstring("J42 is not in the logbook"));
}

TEST_CASE("what names a joint that is not there is said at once and held up", "[act]") {
  Trial trial;
  set_up(trial).done(std::string("joint J02 --spec '80 N·m' --after J09") + kJoint);
  const auto remark = trial.done(std::string("joint J03 --covers J08 J02") + kJoint);
  CHECK_THAT(remark.said(), ContainsSubstring("J08 is not in the logbook yet") &&
                                !ContainsSubstring("J02 is not"));
  const auto audit = trial.run("audit");
  CHECK(audit.code == 1);
  CHECK_THAT(audit.out, ContainsSubstring("missing-joint:J02:J09") &&
                            ContainsSubstring("missing-joint:J03:J08"));
  trial.done(std::string("joint J09") + kJoint);
  CHECK_THAT(trial.run("audit").out, !ContainsSubstring("missing-joint:J02"));
  // What else names a joint, a wrench, an item or a hold point needs it to be there.
  for (const auto* command :
       {"item CL1 --what clips --count 3 --before J77", "hold-point HV --what dead --before J77",
        "tighten J02/1 --wrench TW77 --set 40", "found J02/1 60s 70o --wrench TW77",
        "item CL77 --back 1", "hold-point HP77 --pass", "renew J77 --arrived", "out J77/1",
        "stripe J77/1 --wiped", "recheck J77/1 aligned",
        "settle found-low:J77/01 --as renew --why x", "strike 77 --why x", "show J77",
        "fluid 'no such oil'"}) {
    INFO(command);
    const auto refused = trial.run(command);
    CHECK(refused.code == 1);
    CHECK_THAT(refused.said(), ContainsSubstring("no"));
  }
}

TEST_CASE("a row of a table that lies ahead of the clock is refused", "[act]") {
  Trial trial;
  set_up(trial);
  const auto file = trial.folder().file("wrenches.csv");
  std::ofstream(file) << "name,range,graduation,at\nTW2,20..200 N·m,1 N·m,2031-01-01T10:00Z\n";
  const auto refused = trial.run("import " + file);
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(),
             ContainsSubstring("(at)") && ContainsSubstring("lies ahead of this machine's clock"));
}

TEST_CASE("a logbook started without an ending is one that is found", "[act]") {
  Trial trial;
  const auto started = trial.done("start " + trial.folder().file("p2") + " --machine 'pump 2'");
  CHECK_THAT(started.out, ContainsSubstring("p2.bolts started for pump 2"));
  CHECK(started.err.empty());
  CHECK(trial.run("--log " + trial.folder().file("p2.bolts") + " history").code == 0);
}

}  // namespace entry_checks_test
