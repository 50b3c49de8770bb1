// The guided way through the plan over a pipe: what is mistyped, taken back and asked.

#include <nlohmann/json.hpp>

#include "support/catch.h"
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

TEST_CASE("a wrench that is not in the logbook is told, and the step asked for again",
          "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("v\nTW9\n58\nv\nTW2\n58\nq\n");
  CHECK_THAT(answer.said(), ContainsSubstring("there is no wrench \"TW9\" in this logbook"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/01 pass 1"));
  CHECK_THAT(answer.out, ContainsSubstring("TW2 at 58 N·m"));
  CHECK_THAT(answer.out, ContainsSubstring("stopped; the next call goes on at this step"));
  CHECK(lid.steps_done() == 1);
}

TEST_CASE("u takes the last answer back while tightening, as at the bench", "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("d\nd\nu\nu\nu\nq\n");
  CHECK_THAT(answer.said(), ContainsSubstring("nothing has been answered here yet"));
  CHECK(lid.steps_done() == 0);
  const auto history = lid.trial.done("history J06/1").out;
  CHECK_THAT(history, ContainsSubstring("taken back while tightening"));
}

TEST_CASE("a question mark, s and l end nothing and record nothing while tightening",
          "[dialogue]") {
  Lid lid;
  const auto answer = lid.guided("?\ns\nl\nd\nq\n");
  CHECK_THAT(answer.out, ContainsSubstring("q  quit; the next call goes on here"));
  CHECK(lid.steps_done() == 1);
}

TEST_CASE("the question before a final value that waits takes y, n and nothing else",
          "[dialogue]") {
  Lid lid;
  lid.trial.done(
      "joint J16 --holds pivot --size M20 --grade 8.8 --count 1 --spec '190 N·m' --final-when 'the "
      "box is loaded'");
  lid.trial.done("out J16/1");
  for (int pass = 0; pass < 2; ++pass) lid.trial.done("tighten J06/1-2");
  lid.trial.typed = "d\n?\ny\nd\nq\n";
  const auto answer = lid.trial.done("tighten J16");
  CHECK_THAT(answer.out, ContainsSubstring("Is it so now?"));
  CHECK(answer.out.find("left open") == std::string::npos);
}

}  // namespace guided_tightening_test
