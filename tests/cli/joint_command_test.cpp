// What the joint command takes for the plan: covers, bench, final value, order, passes, re-checks,
// and a specification for some positions.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace joint_command_test {

namespace {

// A bench with a logbook and one wrench.
struct Started : Trial {
  Started() {
    width = 200;  // so that no answer is broken in the middle of what is looked for
    environment["BOLTWITNESS_LOG"] = folder().file("gb1.bolts");
    done("start " + folder().file("gb1.bolts") + " --machine 'GB-1 gearbox'");
    done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  }
};

const std::string kJoint = "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 4 ";

}  // namespace

TEST_CASE("what a joint says for the plan is kept and shown", "[cli]") {
  Started trial;
  const auto entered =
      trial.done(kJoint +
                 "--covers J01 --bench --final-when 'when the box is loaded' --order '1 3, 2 4' "
                 "--passes three-rounds --recheck '7 days' '50 running h'");
  CHECK_THAT(entered.told(), ContainsSubstring("on the bench") && ContainsSubstring("covers J01") &&
                                 ContainsSubstring("final when the box is loaded") &&
                                 ContainsSubstring("order 1,3,2,4") &&
                                 ContainsSubstring("passes three-rounds") &&
                                 ContainsSubstring("re-check after 1 week, 50 running h"));
  const auto shown = trial.done("history J06");
  CHECK_THAT(shown.out, ContainsSubstring("order 1,3,2,4"));
}

TEST_CASE("what a joint cannot say for the plan is refused and nothing written", "[cli]") {
  Started trial;
  const auto is_refused = [&](const std::string& options, const std::string& because) {
    INFO(options);
    const auto outcome = trial.run(kJoint + options);
    CHECK(outcome.code == 2);
    CHECK_THAT(outcome.err, ContainsSubstring(because));
  };
  is_refused("--covers J01 j01", "--covers names j01 twice");
  is_refused("--covers j06", "J06 cannot cover itself");
  is_refused("--order 1,2,3", "missing: 4");
  is_refused("--order spiral", "army-circular, army-straight");
  is_refused("--order army-circular", "printed for 12 positions and this joint has 4");
  is_refused("--passes six-rounds", "no pass rule");
  is_refused("--recheck soon", "soon");
  is_refused("--recheck '7 days' '7 days'", "--recheck names 1 week twice");
  CHECK(trial.run("history J06").code == 1);
}

TEST_CASE("a pass rule printed for another count is taken with a remark", "[cli]") {
  Started trial;
  const auto outcome = trial.done(kJoint + "--passes flange-rounds-many");
  CHECK_THAT(outcome.err,
             ContainsSubstring("another count (flange") && ContainsSubstring("than 4"));
  CHECK(trial
            .done("joint J07 --holds cap --size M12 --grade 8.8 --count 12 --passes "
                  "flange-rounds-many")
            .err == "");
}

TEST_CASE("a specification may be entered for some positions of a joint", "[cli]") {
  Started trial;
  trial.done(kJoint + "--spec '80 N·m' --source 'p. 12'");
  const auto entered = trial.done("joint j06/2,4 --spec '30 N·m' --source 'p. 13'");
  CHECK_THAT(entered.out, ContainsSubstring("J06/2,4 specified 30 N·m"));
  CHECK(trial.done("audit --json").json()["ready"] == true);

  const auto rows = trial.done("compare J06 --json").json()["rows"];
  CHECK(rows[0]["spec"]["nominal_nm"] == 80.0);
  CHECK(rows[1]["spec"]["nominal_nm"] == 30.0);
  CHECK(rows[1]["spec"]["source"] == "p. 13");
  CHECK_THAT(trial.done("compare J06").out, ContainsSubstring("specified at 1,3: 80 N·m") &&
                                                ContainsSubstring("specified at 2,4: 30 N·m"));

  // The tolerance of the position decides: 32 is inside 27 to 33 and far from 80.
  trial.done("out J06/1-4");
  const auto found = trial.done("found J06/2 26s 28s 29s 30o 31p --wrench TW2");
  CHECK_THAT(found.out, ContainsSubstring("N·m: within (27 to 33 N·m)"));
  const auto next = trial.done("found J06/4 --wrench TW2 --next --json").json();
  CHECK(next["next_setting"] < 40.0);

  const auto plan = trial.done("sequence J06 --json").json();
  for (const auto& step : plan["steps"]) {
    const bool is_exception = step["position"] == 2 || step["position"] == 4;
    if (step["kind"] == "check") CHECK(step["target_nm"] == (is_exception ? 30.0 : 80.0));
    CHECK(step["stage"] == "at its turn");
  }
  CHECK_THAT(trial.done("history J06/4").out, ContainsSubstring("J06/2,4 specified"));
  CHECK(trial.done("history J06/1").out.find("J06/2,4 specified") == std::string::npos);
}

TEST_CASE("positions are named only for a specification of a joint that has them", "[cli]") {
  Started trial;
  CHECK(trial.run("joint J09/1-2 --spec '30 N·m'").code == 1);
  trial.done(kJoint);
  CHECK(trial.run("joint J06/1-2").code == 2);
  CHECK(trial.run("joint J06/5 --spec '30 N·m'").code == 2);
  CHECK(trial.run("joint J06/1-2 --spec '30 N·m' --one-time").code == 2);
  CHECK_THAT(trial.run("joint J06/1-2 --holds cap").said(),
             ContainsSubstring("the joint itself is entered as J06"));
}

TEST_CASE("a plan in two stages says what is left open and when it goes on", "[cli]") {
  Started trial;
  trial.done(kJoint +
             "--spec '60 N·m, +60° (55-65)' --final-when 'the box is loaded' --recheck '7 days'");
  trial.done(
      "joint J07 --holds lid --size M12 --grade 8.8 --count 4 --spec '80 N·m' "
      "--passes legacy-flange-rounds");
  const auto plan = trial.done("sequence --json").json();
  std::vector<std::string> stages;
  for (const auto& joint : plan["joints"]) {
    stages.push_back(joint["joint"].get<std::string>() + " " + joint["stage"].get<std::string>());
  }
  CHECK(stages == std::vector<std::string>{"J06 at its turn", "J07 at its turn", "J06 final"});
  CHECK(plan["joints"][2]["otherwise"][0]["restart_from"] == 2);
  CHECK(plan["joints"][2]["recheck_after"][0] == "1 week");
  CHECK(plan["joints"][1]["groups"][0]["known"] == "from memory");
  const auto text = trial.done("sequence").out;
  CHECK_THAT(text, ContainsSubstring("pass 1 of 3: snug") &&
                       ContainsSubstring("then: left open; its final value when the box is "
                                         "loaded") &&
                       ContainsSubstring("Left open until then: when the box is loaded") &&
                       ContainsSubstring("pass 3 of 3: turn 60° further") &&
                       ContainsSubstring("short of 55° or past 65°") &&
                       ContainsSubstring("re-check due after: 1 week") &&
                       ContainsSubstring("before the first: by hand") &&
                       ContainsSubstring("(from memory)"));
}

TEST_CASE("a joint that loses positions says which and what was entered for them", "[cli]") {
  Started trial;
  trial.done(kJoint + "--spec '80 N·m'");
  const std::string smaller =
      "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 2 --replace 3 --why "
      "'miscounted'";
  trial.done("out J06/1-2");
  trial.done("out J06/3");
  trial.done("found J06/4 60s 80o --wrench TW2");
  trial.done("joint J06/2-3 --spec '70 N·m'");
  const auto before = trial.done("history --json").out;
  const auto refused = trial.run(smaller);
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(),
             ContainsSubstring("J06 had 4 positions and now has 2: J06/3-4 are no more, "
                               "and lines 6, 7, 8 speak of them") &&
                 ContainsSubstring("add --really"));
  CHECK(trial.done("history --json").out == before);
  const auto meant = trial.done(smaller + " --really");
  CHECK_THAT(meant.err, ContainsSubstring("J06/3-4 are no more, and lines 6, 7, 8 speak of them"));
}

TEST_CASE("positions that nothing was entered for go with a note", "[cli]") {
  Started trial;
  trial.done(kJoint);
  trial.done("out J06/1-3");
  const auto answer =
      trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 3 --replace 3 --why 'no 4'");
  CHECK_THAT(answer.err,
             ContainsSubstring("J06 had 4 positions and now has 3: J06/4 is no more\n"));
  CHECK_THAT(
      trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 5 --replace 6 --why 'five'")
          .err,
      !ContainsSubstring("no more"));
}

TEST_CASE("a specification that drops the condition of the one before says so", "[cli]") {
  Started trial;
  trial.done(kJoint + "--spec '80 N·m' --condition oiled");
  CHECK_THAT(
      trial.done("joint J06 --spec '75 N·m'").err,
      ContainsSubstring("no --condition was given, so J06 is taken as as-received; line 4 said "
                        "oiled"));
  trial.done("joint J06 --spec '75 N·m' --condition dry");
  CHECK_THAT(trial.done("joint J06 --spec '76 N·m' --condition oiled").err,
             !ContainsSubstring("no --condition was given"));
  // A correction keeps what is not stated anew.
  CHECK_THAT(trial.done("joint J06 --spec '77 N·m' --replace 7 --why 'read again'").err,
             ContainsSubstring("line 7, now struck, said:") &&
                 !ContainsSubstring("no --condition was given"));
  CHECK_THAT(trial.done("joint J06 --spec '76 N·m' --condition as-received").err,
             !ContainsSubstring("no --condition was given"));
  CHECK_THAT(trial.done("joint J06 --spec '77 N·m'").err,
             !ContainsSubstring("no --condition was given"));
}

}  // namespace joint_command_test
