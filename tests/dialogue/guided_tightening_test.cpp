// The guided way through the plan over a pipe: what is mistyped, taken back and asked.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/occurrences.h"
#include "support/trial.h"

namespace guided_tightening_test {

namespace {

// A cover with two positions at 80 N·m, out; the plan has two passes.
class Lid {
 public:
  Lid() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p2.bolts");
    trial.done("start " + trial.folder().file("p2.bolts") + " --machine 'pump 2'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint J06 --holds lid --size M12x1.75 --grade 8.8 --count 2 --spec '80 N·m'");
    trial.done("out J06/1-2");
  }

  Outcome guided(const std::string& keys) {
    trial.typed = keys;
    return trial.done("tighten J06");
  }
  int steps_done() { return trial.done("tighten --json").json()["done"].get<int>(); }

  Trial trial;
};

}  // namespace

TEST_CASE("what is remarked on a joint is said once, not after each key", "[dialogue]") {
  Lid lid;
  lid.trial.done(
      "joint J07 --holds cap --size M12 --grade 8.8 --count 4 --one-time --spec '80 N·m'");
  lid.trial.done("out J07/1-4");
  lid.trial.typed = "d\nd\nd\nq\n";
  const auto answer = lid.trial.done("tighten J07");
  INFO(answer.err);
  CHECK(occurrences(answer.err, "an open hold: one-time-fastener:J07") == 1);
}

TEST_CASE("the first line of a step is its answer, and what follows it is told", "[dialogue]") {
  Lid lid;
  lid.trial.done("joint J07 --holds cap --size M12x1.75 --grade 8.8 --count 5 --spec '80 N·m'");
  lid.trial.done("out J07/1-5");
  lid.trial.typed = "d\nd\nq\n";
  const auto answer = lid.trial.done("tighten J07").out;
  CHECK_THAT(answer, ContainsSubstring("J07/01, pass 1 of 3: TW2 at 56 N·m, 70 %\n"
                                       "  cap; 1 of 5 in this pass\n"));
  CHECK_THAT(answer, ContainsSubstring("  position 1\n  TW2 set to 56 N·m\n"));
  CHECK_THAT(answer, ContainsSubstring("  then 3, 5, 2\n"));
  CHECK_THAT(answer, ContainsSubstring("d done, v other values, k leave out, u take back, m map, "
                                       "q quit; ? for more"));
  lid.trial.typed = "m\nq\n";
  CHECK_THAT(lid.trial.done("tighten J07").out, ContainsSubstring("5* is J07/05; 1 at the datum"));
  lid.trial.typed = "d\nd\nq\n";
  CHECK_THAT(lid.trial.done("tighten J07").out, ContainsSubstring("then J07/01 in pass 2, 3, 5\n"));
}

TEST_CASE("the wrench is to be set anew at a change of setting, and only there", "[dialogue]") {
  Lid lid;
  const auto first = lid.guided("d\nd\nd\nq\n").out;
  CHECK_THAT(first, ContainsSubstring("  set TW2 to 56 N·m\n"));
  CHECK_THAT(first, ContainsSubstring("  set TW2 anew, to 80 N·m: it was 56 N·m\n"));
  CHECK(first.find("set TW2 to") == first.rfind("set TW2 to"));
  CHECK(first.find("anew") == first.rfind("anew"));
  // Whatever it was set to last, at another joint as well.
  lid.trial.done("wrench TW3 --range '5..50 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  lid.trial.done("joint J08 --holds eye --size M8 --grade 8.8 --count 1 --spec '10 N·m'");
  lid.trial.done("out J08/1");
  lid.trial.typed = "d\nq\n";
  CHECK_THAT(lid.trial.done("tighten J08").out,
             ContainsSubstring("take TW3 now, no longer TW2, and set it to 10 N·m"));
}

TEST_CASE("condition and new fasteners are said before the pull", "[dialogue]") {
  Lid lid;
  lid.trial.done(
      "joint J07 --holds cap --size M12x1.75 --grade 8.8 --count 2 --spec '80 N·m' --one-time "
      "--condition oiled");
  lid.trial.done("out J07/1-2");
  const auto screen = [&](const std::string& keys) {
    lid.trial.typed = keys;
    return lid.trial.done("tighten J07").out;
  };
  const auto before = screen("q\n");
  CHECK_THAT(before, ContainsSubstring("  oiled: thread and head face\n"));
  CHECK_THAT(before, ContainsSubstring("NEW FASTENER here (one-time), and none has arrived"));
  lid.trial.done("renew J07/1-2 --arrived");
  CHECK_THAT(screen("q\n"), ContainsSubstring("NEW FASTENER here (one-time): the one that has "
                                              "arrived, not the old one"));
  // Once it is in, there is no old one to be warned of.
  lid.trial.done("tighten J07/1-2 --pass 1");
  CHECK_THAT(screen("q\n"), !ContainsSubstring("NEW FASTENER"));
  CHECK_THAT(lid.guided("q\n").out, !ContainsSubstring("oiled"));
}

TEST_CASE("a new fastener that came once the old one was in is said to be there", "[dialogue]") {
  Lid lid;
  lid.trial.done(
      "joint J07 --holds cap --size M12x1.75 --grade 8.8 --count 1 --spec '80 N·m' --one-time");
  lid.trial.done("out J07/1");
  lid.trial.done("tighten J07/1 --pass 1");
  lid.trial.done("renew J07/1 --arrived");
  lid.trial.typed = "q\n";
  const auto screen = lid.trial.done("tighten J07").out;
  CHECK_THAT(screen, ContainsSubstring("is in and comes out first") &&
                         !ContainsSubstring("none has arrived"));
}

TEST_CASE("what holds a fastener is to be slackened before an earlier pass, and only there",
          "[dialogue]") {
  Lid lid;
  SECTION("a pass that was forgotten") {
    lid.trial.done("tighten J06/1-2 --pass 2");
    const auto first = lid.guided("d\nq\n").out;
    CHECK_THAT(first, ContainsSubstring("SLACKEN it fully first: line 6 tightened it further"));
    CHECK_THAT(lid.guided("d\nd\nd\n").out, ContainsSubstring("J06/02, pass 2 of 2"));
    CHECK(lid.steps_done() == 4);
  }
  SECTION("a stripe that turned") {
    lid.trial.done("tighten J06/1-2");
    lid.trial.done("tighten J06/1-2");
    lid.trial.done("stripe J06/1-2 --wiped");
    lid.trial.run("recheck J06/1 turned 12°");
    const auto screens = lid.guided("d\nlooked good\nd\nd\n").out;
    CHECK_THAT(screens, ContainsSubstring("J06/01, pass 3 of 3"));
    CHECK_THAT(screens, !ContainsSubstring("SLACKEN it fully first"));
  }
}

TEST_CASE("an unknown wrench is asked again at once", "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("v\nTW9\nTW2\n580\n58\nq\n");
  CHECK_THAT(answer.said(), ContainsSubstring("there is no wrench \"TW9\" in this logbook"));
  CHECK_THAT(answer.said(), ContainsSubstring("Enter alone leaves it"));
  CHECK_THAT(answer.said(), ContainsSubstring("TW2 cannot be set to 580 N·m"));
  CHECK_THAT(answer.out, ContainsSubstring("wrench (TW2): "));
  CHECK_THAT(answer.out, ContainsSubstring("TW2 set to, in N·m: "));
  CHECK_THAT(answer.out, ContainsSubstring("TW2 at 58 N·m"));
  CHECK(lid.steps_done() == 1);
}

TEST_CASE("Enter takes the wrench in brackets, and a setting may carry its unit", "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("v\n\n58 ft·lbf\n58 N·m\nq\n");
  CHECK_THAT(answer.said(), ContainsSubstring("58 ft·lbf: the scale of TW2 is in N·m"));
  CHECK_THAT(answer.out, ContainsSubstring("TW2 at 58 N·m"));
  CHECK(lid.steps_done() == 1);
  // The plan's comes first among several.
  lid.trial.done("wrench TW1 --range '20..200 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  CHECK_THAT(lid.guided("v\nq\n").out, ContainsSubstring("wrench (TW2), or TW1: "));
}

TEST_CASE("every answer that is left says that nothing was recorded", "[dialogue]") {
  Lid lid;
  for (const std::string keys : {"v\n\nq\n", "v\nTW9\n\nq\n", "v\nTW2\n\nq\n", "k\n\nq\n", "v\n",
                                 "k\n", "v\nTW2\n", "\nq\n", "done\nq\n"}) {
    INFO(keys);
    const auto answer = lid.guided(keys);
    CHECK_THAT(answer.said(), ContainsSubstring("nothing was recorded"));
    CHECK_THAT(answer.out, ContainsSubstring("stopped; the next call goes on at this step"));
    CHECK(lid.steps_done() == 0);
  }
}

TEST_CASE("u takes the last answer back while tightening, as at the bench", "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("d\nd\nu\nu\nu\nq\n");
  CHECK_THAT(answer.said(), ContainsSubstring("nothing has been answered here yet"));
  CHECK(lid.steps_done() == 0);
  const auto history = lid.trial.done("history J06/1").out;
  CHECK_THAT(history, ContainsSubstring("taken back while tightening"));
}

TEST_CASE("a key that means something at the bench alone records nothing while tightening",
          "[dialogue]") {
  Lid lid;
  for (const std::string key : {"s", "o", "p", "n", "t", "z", "l", "r", "e", "b", "f", "g"}) {
    CHECK_THAT(lid.guided(key + "\nq\n").said(),
               ContainsSubstring("\"" + key + "\" is no key here; d v k u m q ? are"));
  }
  const auto answer = lid.guided("?\nD\nq\n");
  CHECK_THAT(answer.out, ContainsSubstring("u: take the last answer back; it stays readable, "
                                           "struck"));
  CHECK(lid.steps_done() == 1);
}

TEST_CASE("the question before a final value that waits takes y, q and nothing else",
          "[dialogue]") {
  Lid lid;
  lid.trial.done(
      "joint J16 --holds pivot --size M20 --grade 8.8 --count 1 --spec '190 N·m' --final-when 'the "
      "box is loaded'");
  lid.trial.done("out J16/1");
  for (int pass = 0; pass < 2; ++pass) lid.trial.done("tighten J06/1-2");
  lid.trial.typed = "d\n?\nn\ny\nd\nq\n";
  const auto answer = lid.trial.done("tighten J16");
  CHECK_THAT(answer.out, ContainsSubstring("Is it so now?"));
  CHECK_THAT(answer.said(), ContainsSubstring("\"n\" is no key here; y q are"));
  CHECK(answer.out.find("left open") == std::string::npos);
}

}  // namespace guided_tightening_test
