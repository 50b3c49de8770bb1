// What replaces an earlier line keeps of it what is not stated anew; several lines are struck
// together.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace correction_test {

namespace {

class Lid {
 public:
  Lid() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("p2.bolts");
    trial.done("start " + trial.folder().file("p2.bolts") + " --machine 'pump 2'");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds lid --size M12x1.75 --length 60mm --grade 8.8 --count 4 --critical "
        "--recheck '7 days' --spec '80 N·m' --source 'drawing 4' --condition oiled");  // 3 and 4
    trial.done("joint J07 --holds flange --size M10 --grade 8.8 --count 2 --spec '40 N·m'");
  }
  nlohmann::json line(int number) {
    const auto history = trial.done("history --json").json();
    for (const auto& each : history["lines"]) {
      if (each["line"] == number) return each;
    }
    return {};
  }

  Trial trial;
};

}  // namespace

TEST_CASE("a bag put right keeps how it broke, the note and the time", "[act]") {
  Lid lid;
  lid.trial.done("out J06/1 --broke tight --bag B1 --note 'scored head' --at 2026-05-01T10:00Z");
  const auto before = lid.line(7);
  const auto answer = lid.trial.done("out J06/1 --bag B2 --replace 7 --why 'wrong bag'");
  CHECK_THAT(answer.out, ContainsSubstring("broke tight") && ContainsSubstring("bag B2") &&
                             ContainsSubstring("scored head"));
  CHECK_THAT(answer.said(), ContainsSubstring("line 7, now struck, said: J06/01 out, broke tight"));
  CHECK(lid.line(9)["done_at"] == before["done_at"]);
}

TEST_CASE("a corrected bag does not make its joint the last that came out", "[act]") {
  Lid lid;
  lid.trial.done("out J06/1-4 --bag B1");
  lid.trial.done("out J07/1-2");
  const auto order = [&] {
    std::vector<std::string> codes;
    const auto plan = lid.trial.done("sequence --json").json();
    for (const auto& joint : plan["joints"]) {
      codes.push_back(joint["joint"].get<std::string>());
    }
    return codes;
  };
  const auto before = order();
  REQUIRE(before.size() == 2);
  lid.trial.done("out J06/1-4 --bag B2 --replace 7 --why 'wrong bag'");
  CHECK(order() == before);
}

TEST_CASE("one field of a joint is put right without the rest", "[act]") {
  Lid lid;
  const auto answer = lid.trial.done("joint J06 --length 70mm --replace 3 --why 'measured again'");
  CHECK_THAT(answer.said(), ContainsSubstring("line 3, now struck, said:"));
  const auto shown = lid.trial.done("export joints").out;
  CHECK_THAT(shown, ContainsSubstring("J06,lid,M12x1.75,70mm,8.8,4") ||
                        ContainsSubstring("J06,lid,M12,70mm,8.8,4"));
  CHECK_THAT(shown, ContainsSubstring("1 week"));
  CHECK_THAT(lid.trial.done("show J06").out, ContainsSubstring("critical"));
}

TEST_CASE("one field of a specification is put right without the rest", "[act]") {
  Lid lid;
  lid.trial.done("joint J06 --condition dry --replace 4 --why 'was dry'");
  const auto shown = lid.trial.done("export joints").out;
  CHECK_THAT(shown, ContainsSubstring("80 N·m,drawing 4,dry"));
}

TEST_CASE("a finding put right keeps its readings and what was said of the test", "[act]") {
  Lid lid;
  lid.trial.done("out J06/1");
  lid.trial.done("found J06/1 60s 70s 75o --wrench TW2 --neighbours slack");  // line 8
  const auto answer =
      lid.trial.done("found J06/1 --wrench TW2 --neighbours tight --replace 8 --why 'misheard'");
  CHECK_THAT(answer.out, ContainsSubstring("60s 70s 75o on TW2"));
}

TEST_CASE("several lines are struck together, and each answer tells what it said", "[act]") {
  Lid lid;
  lid.trial.done("out J06/1");
  lid.trial.done("out J06/2");
  const auto struck = lid.trial.done("strike 7 8 --why 'other machine'");
  CHECK_THAT(struck.out, ContainsSubstring("line 7 struck, which said: J06/01 out") &&
                             ContainsSubstring("line 8 struck, which said: J06/02 out"));
  lid.trial.done("out J06/3");  // line 11
  CHECK(lid.trial.run("strike 11 11 --why twice").code == 1);
  CHECK(lid.trial.run("strike 11 99 --why 'one is not there'").code == 1);
  CHECK(lid.line(11)["struck"].is_null());
}

}  // namespace correction_test
