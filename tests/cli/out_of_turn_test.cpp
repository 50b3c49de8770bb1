// What is done out of turn, below a scale, at a place that stays empty or twice: said at every
// door.

#include "support/catch.h"
#include "support/trial.h"

namespace out_of_turn_test {

namespace {

class Head {
 public:
  Head() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb2.bolts");
    trial.done("start " + trial.folder().file("gb2.bolts") + " --machine GB-2");
    trial.done("wrench TW1 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint HEAD --holds head --size M10 --grade 10.9 --count 4 --spec '25 N·m, 50 N·m' "
        "--source 'm p. 1'");
  }
  std::string refused(const std::string& command) {
    const auto answer = trial.run(command);
    INFO(command << ": " << answer.out << answer.err);
    CHECK(answer.code != 0);
    return answer.said();
  }

  Trial trial;
};

}  // namespace

TEST_CASE("no stripe is drawn after a pull that went lower", "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-4");
  head.trial.done("tighten HEAD/1-4 --pass 2 --set 45");
  CHECK_THAT(head.trial.done("tighten HEAD/1-4 --pass 1").said(),
             ContainsSubstring("pass 2 was done before this at HEAD/1-4 (line 6)"));
  CHECK_THAT(head.refused("stripe HEAD/1-4 --wiped"), ContainsSubstring("final value"));
  CHECK_THAT(head.refused("tighten HEAD/1-4 --check --by LM"), ContainsSubstring("final value"));
  CHECK_THAT(head.trial.run("").out, ContainsSubstring("next: boltwitness tighten HEAD"));
  head.trial.done("tighten HEAD/1-4 --pass 2");
  head.trial.done("stripe HEAD/1-4 --wiped");
  CHECK_THAT(head.trial.done("").out, ContainsSubstring("Finished"));
}

TEST_CASE("a setting below the scale is refused as one above it is", "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-4");
  CHECK_THAT(head.refused("found HEAD/1 18o --wrench TW1"),
             ContainsSubstring("cannot be set to 18 N·m"));
  CHECK_THAT(head.refused("tighten HEAD/1-4 --set 18"),
             ContainsSubstring("TW1 cannot be set to 18 N·m: its scale is 20..200 N·m"));
  head.trial.typed = "v\nTW1\n18\n25\nq\n";
  CHECK_THAT(head.trial.done("tighten HEAD").said(), ContainsSubstring("cannot be set to 18 N·m"));
}

TEST_CASE("a fastener that is out does not come out again, whatever the time", "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-4 --at 2026-05-10T10:00");
  head.trial.done("tighten HEAD/3 --pass 1 --at 2026-05-10T12:00");
  CHECK_THAT(head.refused("out HEAD/3 --at 2026-05-10T11:00"),
             ContainsSubstring("HEAD/03 is recorded as out already (line 5,") &&
                 ContainsSubstring("out HEAD/1-4 --replace 5"));
  CHECK_THAT(head.refused("out HEAD/3 --at 2026-05-10T09:00"), ContainsSubstring("line 5"));
  CHECK_THAT(head.trial.done("out HEAD/3 --at 2026-05-10T13:00").out,
             ContainsSubstring("4 of 4 out now"));
}

TEST_CASE("joints that wait for each other are told as soon as they do", "[cli]") {
  Head head;
  head.trial.done(
      "joint LID --holds lid --size M8 --grade 8.8 --count 2 --spec '20 N·m' --covers HEAD");
  const auto answer = head.trial.done("joint HEAD --replace 3 --after LID --why 'order'");
  CHECK_THAT(answer.said(), ContainsSubstring("nothing can be tightened before that is corrected"));
}

TEST_CASE("what goes on after another comes off before it", "[cli]") {
  Head head;
  head.trial.done(
      "joint VALVE --holds valves --size M8 --grade 8.8 --count 2 --spec '20 N·m' --after HEAD");
  CHECK_THAT(head.trial.run("").told(), ContainsSubstring("next: boltwitness bench VALVE"));
  head.trial.done("out VALVE/1-2");
  CHECK_THAT(head.trial.run("").told(), ContainsSubstring("next: boltwitness bench HEAD"));
}

TEST_CASE("what is taken out under a cover that never came off is remarked on", "[cli]") {
  Head head;
  head.trial.done(
      "joint LID --holds lid --size M8 --grade 8.8 --count 2 --spec '20 N·m' --covers HEAD");
  CHECK_THAT(head.trial.done("out HEAD/1").said(),
             ContainsSubstring("LID covers HEAD and comes off first"));
  head.trial.done("out LID/1-2");
  CHECK(head.trial.done("out HEAD/2").err.empty());
}

TEST_CASE("a place that stays empty is named where it is striped, looked at or tightened",
          "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-2,4");
  head.trial.done("out HEAD/3 --broke empty");
  head.trial.done("settle found-empty:HEAD/03 --as use-as-is --why 'dowel hole'");
  head.trial.done("tighten HEAD/1-2,4 --pass 1");
  head.trial.done("tighten HEAD/1-2,4 --pass 2");
  for (const std::string deed :
       {"stripe HEAD/1-4 --wiped", "recheck HEAD/1-4 aligned", "tighten HEAD/1-4"}) {
    CHECK_THAT(head.refused(deed), ContainsSubstring("HEAD/03 stays as found (decided in line 7); "
                                                     "write HEAD/1-2,4"));
  }
}

TEST_CASE("a finished job tells how many checks nobody settled", "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-4");
  head.trial.done("tighten HEAD/1-4 --pass 1 --set 30");
  head.trial.done("tighten HEAD/1-4 --pass 2");
  head.trial.done("stripe HEAD/1-4 --wiped");
  CHECK_THAT(head.trial.done("").out, ContainsSubstring(" not settled: boltwitness audit"));
}

TEST_CASE("a wait is not begun before a close that is on record", "[cli]") {
  Head head;
  head.trial.done("hold-point HV --what 'proved dead' --wait 10min --at 2026-05-10T08:00");
  head.trial.done("hold-point HV --begin --at 2026-05-10T09:00");
  head.trial.done("hold-point HV --close --at 2026-05-10T10:00");
  CHECK_THAT(head.refused("hold-point HV --begin --at 2026-05-10T09:30"),
             ContainsSubstring("was closed on") && ContainsSubstring("starts no wait now"));
  head.trial.done("hold-point HV --begin --at 2026-05-10T10:30");
}

TEST_CASE("a line that is replaced by the same is said to be the same", "[cli]") {
  Head head;
  head.trial.done("out HEAD/1-4");
  head.trial.done("found HEAD/1 '40s 44s 45o 46p' --wrench TW1");
  CHECK_THAT(head.trial.done("found HEAD/1 --replace 6 --why 'was position 2'").said(),
             ContainsSubstring("it says what line 6 said"));
}

}  // namespace out_of_turn_test
