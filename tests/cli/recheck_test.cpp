// The command recheck: later looks at the final stripes.

#include <nlohmann/json.hpp>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/trial.h"

namespace recheck_test {

namespace {

// Four bolts at 80 N·m with their final stripes, to be looked at after 7 days and 50 running hours.
class Striped {
 public:
  explicit Striped(std::optional<quantity::Length> length = quantity::Length::millimetres(90)) {
    const auto log = trial.folder().file("gb1.bolts");
    trial.environment["BOLTWITNESS_LOG"] = log;
    trial.done("start " + log + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    enter_joint(log, length);
    trial.done("joint J06 --spec '80 N·m' --condition oiled");
    trial.done("out J06/1-4");
    for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");
    trial.done("stripe J06/1-4 --wiped --counter '1240 running h'");
  }

  Trial trial;

 private:
  void enter_joint(const std::string& log, std::optional<quantity::Length> length) const {
    record::Joint joint;
    joint.code = "J06";
    joint.holds = "cover";
    joint.size = "M12x1.75";
    joint.length = length;
    joint.grade = "8.8";
    joint.count = 4;
    joint.rechecks = {record::read_recheck_interval("7 days"),
                      record::read_recheck_interval("50 running h")};
    auto logbook = logbook::Logbook::open_to_write(log);
    logbook::Recording recording(
        logbook, {"KB", "00000000-0000-4000-8000-000000000001", trial.now, trial.now});
    recording.append(joint);
    recording.commit();
  }
};

}  // namespace

TEST_CASE("the due list goes by the clock and by the machine's counter", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  auto list = trial.done("recheck --counter '1250 running h'").out;
  CHECK_THAT(list, ContainsSubstring("in 6 days 23 h (1 week after the stripe"));
  CHECK_THAT(list, ContainsSubstring("at 1290 running h, 40 running h to go (50 running h after"));
  CHECK(list.find("overdue") == std::string::npos);
  trial.now += std::chrono::days(8);
  const auto outcome = trial.run("recheck --counter '1295 running h' --json");
  CHECK(outcome.code == 1);
  const auto json = outcome.json();
  CHECK(json["overdue"] == true);
  REQUIRE(json["due"].size() == 2);
  CHECK(json["due"][0]["overdue"] == true);
  CHECK(json["due"][0]["after"] == "1 week");
  CHECK(json["due"][0]["positions"].size() == 4);
  CHECK(json["due"][1]["due_counter"] == "1290 running h");
  CHECK(json["due"][1]["counter"] == "1295 running h");
  const auto text = trial.run("recheck --counter '1295 running h'").out;
  CHECK_THAT(text, ContainsSubstring("overdue  J06/1-4: 2026-06-08 08:00, 1 day ago"));
  CHECK_THAT(text, ContainsSubstring("5 running h ago"));
}

TEST_CASE("an aligned look is recorded and meets the intervals", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  trial.now += std::chrono::days(8);
  CHECK(trial.run("recheck").code == 1);
  CHECK_THAT(trial.done("recheck J06/1-4 aligned --counter '1291 running h'").out,
             ContainsSubstring("J06/1-4 stripe aligned at 1291 running h"));
  CHECK_THAT(trial.done("recheck").out, ContainsSubstring("nothing is to be looked at again"));
}

TEST_CASE("a turned stripe tells the preload lost, as a band with its assumptions", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  const auto text = trial.done("recheck J06/2 turned 15°").out;
  CHECK_THAT(text, ContainsSubstring("J06/02 stripe turned 15°"));
  CHECK_THAT(text, ContainsSubstring("kN of preload from each; at 80 N·m, oiled, there were"));
  CHECK_THAT(text, ContainsSubstring("steel bolt that stretches over 72 to 90 mm"));
  CHECK_THAT(text, ContainsSubstring("0.114 to 0.33"));
  CHECK_THAT(text, ContainsSubstring("replaced, not tightened"));
  const auto json = trial.done("recheck J06/3 'turned 1/8 turn' --json").json();
  CHECK(json["lines"][0]["line"] == 11);
  // Worked by hand: (45/360) 1.75 mm 206843 MPa 84.27 mm²/90 mm (1 - 0.33) = 28.4 kN, and with the
  // shank of 113.1 mm² over 72 mm and 1 - 0.114: 63.0 kN.
  CHECK_THAT(json["preload_lost_n"]["low"].get<double>(), WithinRel(28400.0, 2e-3));
  CHECK_THAT(json["preload_lost_n"]["high"].get<double>(), WithinRel(63000.0, 2e-3));
  CHECK(json["preload_had_n"]["low"] < json["preload_had_n"]["high"]);
  CHECK(json["assumed"].size() == 3);
}

TEST_CASE("a turned stripe is overdue until it is tightened and striped again", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  trial.done("recheck J06/2 'turned 15°'");
  const auto list = trial.run("recheck");
  CHECK(list.code == 1);
  CHECK_THAT(list.out, ContainsSubstring("1 look overdue, ") &&
                           ContainsSubstring("\noverdue  J06/02: turned 15°"));
  const auto refused = trial.run("recheck J06/2 aligned");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("draw a new stripe"));
  const auto alone = trial.run("stripe J06/2 --wiped");
  CHECK(alone.code == 1);
  CHECK_THAT(alone.said(), ContainsSubstring("a new stripe does not mend that: slacken it"));
  // What is turned further without slackening does not count.
  trial.done("tighten J06/2 --pass 4");
  CHECK(trial.run("stripe J06/2 --wiped").code == 1);
  CHECK_THAT(trial.done("tighten J06/2 --seen 'thread clean'").out,
             ContainsSubstring("pass 1, loosen: done, seen: thread clean"));
  CHECK_THAT(trial.run("sequence --status").out,
             ContainsSubstring("J06/02: final stripe found turned"));
  for (int pass = 2; pass <= 4; ++pass) trial.done("tighten J06/2");
  CHECK(trial.run("recheck").code == 1);
  trial.done("stripe J06/2 --wiped");
  trial.done("recheck");
  trial.done("recheck J06/2 aligned");
}

TEST_CASE("without the length of the bolts the loss is not known", "[cli]") {
  Striped striped(std::nullopt);
  const auto text = striped.trial.done("recheck J06/2 'turned 15°'").out;
  CHECK_THAT(text, ContainsSubstring("is not known: the joint has no --length"));
  CHECK(striped.trial.done("recheck J06/1 'turned 15°' --json").json()["preload_lost_n"].is_null());
}

TEST_CASE("a look that cannot be is refused and nothing is written", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  trial.done("out J06/4");
  const auto bare = trial.run("recheck J06/3-4 aligned");
  CHECK(bare.code == 1);
  CHECK_THAT(bare.err, ContainsSubstring("J06/04 has no final stripe"));
  CHECK(trial.run("recheck J99/1 aligned").code == 1);
  for (const auto* command :
       {"recheck J06/1 wobbly", "recheck J06/1 turned", "recheck J06/1 'turned 0°'",
        "recheck J06/9 aligned", "recheck J06 aligned", "recheck J06/1",
        "recheck J06/1 aligned --counter 1290", "recheck --counter '1290 turns'"}) {
    INFO(command);
    CHECK(trial.run(command).code == 2);
  }
  for (const auto* command : {"recheck J06/1 turned", "recheck J06/1 'turned '"}) {
    INFO(command);
    CHECK_THAT(
        trial.run(command).said(),
        ContainsSubstring("how far the stripe has turned is missing; write it behind turned, "
                          "such as \"turned 15°\""));
  }
  CHECK(trial.done("history --json").json()["lines"].size() == 10);
}

TEST_CASE("a counter that shows less than at the stripe is said", "[cli]") {
  Striped striped;
  CHECK_THAT(striped.trial.done("recheck J06/1 aligned --counter '124 running h'").err,
             ContainsSubstring("1240 running h at the stripe"));
}

TEST_CASE("a stripe or look without the reading that it counts from is told and stays open",
          "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  const auto ending = [&] { return trial.run("").told(); };
  CHECK_THAT(ending(), ContainsSubstring("Finished: nothing is open"));
  const auto stripe = trial.done("stripe J06/1-4 --wiped");
  CHECK_THAT(stripe.said(),
             ContainsSubstring("no counter reading") &&
                 ContainsSubstring("boltwitness stripe J06/1-4 --replace 10 --why \"counter read\" "
                                   "--counter \"READING running h\""));
  CHECK_THAT(ending(), ContainsSubstring("Not finished: 1 counter reading missing"));
  CHECK_THAT(trial.done("recheck").told(), ContainsSubstring("no counter reading was noted then"));
  const auto next = trial.run("status --json").json()["next"];
  CHECK(next["command"] ==
        "stripe J06/1-4 --replace 10 --why \"counter read\" --counter \"READING running h\"");
  trial.done("stripe J06/1-4 --replace 10 --why 'counter read' --counter '1240 running h'");
  CHECK_THAT(ending(), ContainsSubstring("Finished: nothing is open"));
  // A look without it does not count for the counter.
  trial.now += std::chrono::days(8);
  CHECK_THAT(trial.done("recheck J06/1-4 aligned").said(),
             ContainsSubstring("boltwitness recheck J06/1-4 --replace 13 --why"));
  CHECK(trial.done("recheck J06/1-4 aligned --counter '1300 running h'").err.empty());
}

TEST_CASE("a repeated look without a reading leaves the next one without a date", "[cli]") {
  Striped striped;
  auto& trial = striped.trial;
  trial.done("joint J06 --replace 3 --why w --recheck 'every 50 running h'");
  trial.done("recheck J06/1-4 aligned --counter '1295 running h'");
  CHECK_THAT(trial.run("").told(), ContainsSubstring("Finished: nothing is open"));
  trial.done("recheck J06/1-4 aligned");
  CHECK_THAT(trial.run("").told(), ContainsSubstring("Not finished: 1 counter reading missing"));
}

}  // namespace recheck_test
