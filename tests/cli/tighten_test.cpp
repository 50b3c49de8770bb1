// The commands tighten and stripe, in one line and guided.

#include <nlohmann/json.hpp>

#include "logbook/logbook.h"
#include "logbook/recording.h"
#include "support/catch.h"
#include "support/trial.h"

namespace tighten_test {

namespace {

// A cover with four positions at 80 N·m: passes of 56, 80 and a check round at 80 N·m.
class Cover {
 public:
  Cover() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
    trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint J06 --holds cover --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
    trial.done("out J06/1-4");
  }
  // The cover done, and a pivot of two at 190 N·m that is out and waits until the box is loaded.
  void then_pivot() {
    trial.done(
        "joint J16 --holds pivot --size M20 --grade 8.8 --count 2 --spec '190 N·m' "
        "--final-when 'the box is loaded'");
    trial.done("out J16/1-2");
    for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");
  }
  int line_count() { return static_cast<int>(trial.done("history --json").json()["lines"].size()); }

  Trial trial;
};

}  // namespace

TEST_CASE("tighten alone says where the job stands", "[cli]") {
  Cover cover;
  auto answer = cover.trial.done("tighten");
  CHECK_THAT(answer.out, ContainsSubstring("0 of 12 steps done"));
  CHECK_THAT(answer.out, ContainsSubstring("next: J06/01, pass 1 of 3: TW2 at 56 N·m, 70 %"));
  cover.trial.done("tighten J06/1,3");
  const auto standing = cover.trial.done("tighten --json").json();
  CHECK(standing["done"] == 2);
  CHECK(standing["next"]["position"] == 2);
  CHECK(standing["next"]["setting"] == 56.0);
  CHECK(standing["next"]["setting_unit"] == "N·m");
}

TEST_CASE("one line records a pass with the plan's wrench and setting", "[cli]") {
  Cover cover;
  const auto answer = cover.trial.done("tighten J06/1-4");
  CHECK_THAT(answer.out,
             ContainsSubstring("J06/1-4 pass 1, torque to 56 N·m: done with TW2 at 56"));
  CHECK(answer.err.empty());
}

TEST_CASE("what is not as planned is recorded and said at once", "[cli]") {
  Cover cover;
  const auto answer = cover.trial.done("tighten J06/2 --pass 2 --wrench TW2 --set 95");
  CHECK_THAT(answer.out, ContainsSubstring("TW2 at 95 N·m"));
  CHECK_THAT(answer.err, ContainsSubstring("over-torque"));
  CHECK_THAT(answer.err, ContainsSubstring("pass 1 is still open"));
  CHECK_THAT(answer.err, ContainsSubstring("recorded as it happened"));
}

TEST_CASE("a tightening that cannot be is refused and nothing is written", "[cli]") {
  Cover cover;
  const int before = cover.line_count();
  CHECK(cover.trial.run("tighten J06/1-9").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --pass 4").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --set 0").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --set '60 ft·lbf'").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --set 300").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --turned 60°").code == 2);
  CHECK(cover.trial.run("tighten J06/1 --wrench TW9 --set 60").code == 1);
  CHECK(cover.trial.run("tighten J07/1").code == 1);
  CHECK(cover.trial.run("tighten --pass 1").code == 2);
  CHECK(cover.trial.run("tighten J06 --pass 1").code == 2);
  CHECK(cover.line_count() == before);
}

TEST_CASE("a second person checks after the final value, and is another", "[cli]") {
  Cover cover;
  cover.trial.done("tighten J06/1-4 --by KB");
  CHECK(cover.trial.run("tighten J06/1 --check --by LM").code == 1);
  cover.trial.done("tighten J06/1-4 --by KB");
  cover.trial.done("tighten J06/1-4 --by KB");
  const auto same = cover.trial.run("tighten J06/1 --check --by kb");
  CHECK(same.code == 1);
  CHECK_THAT(same.err, ContainsSubstring("another person"));
  CHECK_THAT(cover.trial.done("tighten J06/1-4 --check --by LM").out,
             ContainsSubstring("checked by a second person"));
}

TEST_CASE("a pass left out keeps its reason", "[cli]") {
  Cover cover;
  CHECK_THAT(cover.trial.done("tighten J06/3 --skip 'stud missing'").out,
             ContainsSubstring("left out, stud missing"));
  CHECK(cover.trial.done("tighten --json").json()["left_out"] == 1);
}

TEST_CASE("the guided way takes single keys and resumes where it stopped", "[cli]") {
  Cover cover;
  cover.trial.typed = "d\nd\nq\n";
  const auto first = cover.trial.done("tighten J06");
  CHECK_THAT(first.out, ContainsSubstring("1 of 4 in this pass"));
  CHECK_THAT(first.out, ContainsSubstring("TW2 at 56 N·m, 70 %"));
  CHECK_THAT(first.out, ContainsSubstring("stopped; the next call goes on at this step"));
  CHECK(cover.trial.done("tighten --json").json()["done"] == 2);

  cover.trial.typed = "x\nk\nthread damaged\nv\nTW2\n58\n";  // ends without a word, as a pipe does
  const auto second = cover.trial.done("tighten J06");
  CHECK_THAT(second.out, ContainsSubstring("k leave out"));
  CHECK_THAT(second.out, ContainsSubstring("left out, thread damaged"));
  CHECK_THAT(second.out, ContainsSubstring("TW2 at 58 N·m"));
  CHECK_THAT(second.err, ContainsSubstring("the plan asks for 56 N·m"));

  cover.trial.typed = std::string(20, 'd');
  for (std::size_t i = 1; i < cover.trial.typed.size(); i += 2) cover.trial.typed[i] = '\n';
  const auto last = cover.trial.done("tighten J06");
  CHECK_THAT(last.out, ContainsSubstring("11 of 12 steps done, 1 left out"));
}

TEST_CASE("a wrong answer at a prompt writes nothing and asks again", "[cli]") {
  Cover cover;
  const int before = cover.line_count();
  cover.trial.typed = "v\nTW2\nsixty\nq\n";
  const auto answer = cover.trial.done("tighten J06");
  CHECK_THAT(answer.err, ContainsSubstring("sixty"));
  CHECK(cover.line_count() == before);
}

TEST_CASE("tighten respects a hold point", "[cli]") {
  Cover cover;
  auto logbook = logbook::Logbook::open_to_write(cover.trial.folder().file("gb1.bolts"));
  const auto write = [&](const record::Content& content) {
    logbook::Recording recording(
        logbook, {"KB", "00000000-0000-4000-8000-000000000001", cover.trial.now, cover.trial.now});
    recording.append(content);
    recording.commit();
  };
  write(record::HoldPoint{"HV", "store discharged", record::read_span_of_time("10 min"), {}});
  const auto shut = cover.trial.run("tighten J06/1");
  CHECK(shut.code == 1);
  CHECK_THAT(shut.said(), ContainsSubstring("HV (store discharged) has not been begun"));
  write(record::HoldPointStep{"HV", record::HoldPointMove::Begun, ""});
  CHECK_THAT(cover.trial.run("tighten J06").said(), ContainsSubstring("of the wait left"));
  cover.trial.now += std::chrono::minutes(10);
  write(record::HoldPointStep{"HV", record::HoldPointMove::Passed, "0 V"});
  CHECK(cover.trial.done("tighten J06/1").code == 0);
}

TEST_CASE("the final stripe comes after the final value", "[cli]") {
  Cover cover;
  const auto early = cover.trial.run("stripe J06/1 --wiped");
  CHECK(early.code == 1);
  CHECK_THAT(early.err, ContainsSubstring("has not reached the final value"));
  for (int pass = 0; pass < 3; ++pass) cover.trial.done("tighten J06/1-4");
  CHECK(cover.trial.run("stripe J06/1-4").code == 2);
  CHECK_THAT(cover.trial.done("stripe J06/1-3 --wiped --counter '1240 running h'").out,
             ContainsSubstring("J06/1-3 final stripe, teardown mark wiped at 1240 running h"));
  cover.trial.keyboard = true;
  cover.trial.typed = "n\n";
  const auto asked = cover.trial.done("stripe J06/4");
  CHECK_THAT(asked.out, ContainsSubstring("teardown mark still there"));
  CHECK_THAT(asked.err, ContainsSubstring("two marks"));
}

TEST_CASE("a tightening entered wrongly is replaced with a reason", "[cli]") {
  Cover cover;
  cover.trial.done("tighten J06/1 --wrench TW2 --set 65");
  const int line = cover.line_count();
  cover.trial.done("tighten J06/1 --replace " + std::to_string(line) + " --why 'read wrongly'");
  CHECK(cover.trial.done("tighten --json").json()["done"] == 1);
}

TEST_CASE("the plan cannot be declared finished while anything is open", "[cli]") {
  Cover cover;
  const auto before = cover.trial.run("sequence --status");
  CHECK(before.code == 1);
  CHECK_THAT(before.out, ContainsSubstring("Not finished"));
  for (int pass = 0; pass < 3; ++pass) cover.trial.done("tighten J06/1-4");
  CHECK(cover.trial.run("sequence --status").code == 1);
  cover.trial.done("stripe J06/1-4 --wiped");
  CHECK_THAT(cover.trial.done("sequence --status").out,
             ContainsSubstring("Finished: nothing is open"));
  const auto status = cover.trial.done("sequence --status --json").json();
  CHECK(status["finished"] == true);
  CHECK(status["joints"][0]["striped"] == 4);
  // A hold of the audit keeps it open, whatever was done.
  cover.trial.done("found J06/2 50s 51o --wrench TW2 --at 2026-01-01T08:00");
  const auto held = cover.trial.run("sequence --status");
  CHECK(held.code == 1);
  CHECK_THAT(held.out, ContainsSubstring("found-low:J06/02"));
  const auto json = cover.trial.run("sequence --status --json").json();
  CHECK(json["finished"] == false);
  CHECK(json["to_settle"][0] == "found-low:J06/02");
}

TEST_CASE("the guided way asks before a final value that waits", "[cli]") {
  Cover cover;
  cover.then_pivot();
  cover.trial.typed = "d\nd\nq\n";  // snug both, then not yet
  const auto waiting = cover.trial.done("tighten J16");
  CHECK_THAT(waiting.out, ContainsSubstring("final value when the box is loaded. Is it so now?"));
  CHECK_THAT(waiting.out, ContainsSubstring("left open"));
  CHECK_THAT(cover.trial.run("sequence --status").out,
             ContainsSubstring("J16/1-2: pass 2 open, waits until the box is loaded"));
  cover.trial.typed = "y\nd\nd\nd\nd\n";
  CHECK_THAT(cover.trial.done("tighten J16").out, ContainsSubstring("no step is open any more"));
}

TEST_CASE("the guided way does not lead past a joint that is covered", "[cli]") {
  Cover cover;
  cover.trial.done(
      "joint J07 --holds lid --size M8 --grade 8.8 --count 2 --spec '20 N·m' "
      "--covers J06");
  cover.trial.done("out J07/1-2");
  cover.trial.typed = "d\n";
  const auto refused = cover.trial.run("tighten J07");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("J07 covers J06, and J06 is not finished"));
  CHECK_THAT(cover.trial.done("tighten J07/1").said(),
             ContainsSubstring("J07 covers J06, and J06 is not finished"));
  for (int pass = 0; pass < 3; ++pass) cover.trial.done("tighten J06/1-4");
  // Nor past one that is not marked yet: J06 cannot be reached any more once J07 is on.
  cover.trial.typed = "d\nq\n";
  const auto asked = cover.trial.done("tighten J07");
  CHECK_THAT(asked.told(),
             ContainsSubstring("J07 covers J06: wipe the teardown mark off J06/1-4 and "
                               "draw the final stripe now"));
  CHECK_THAT(asked.said(), ContainsSubstring("\"d\" is no key here; y q are"));
  cover.trial.typed = "y\nd\n";
  CHECK_THAT(cover.trial.done("tighten J07").told(),
             ContainsSubstring("J06/1-4 final stripe") && ContainsSubstring("J07/02"));
}

TEST_CASE("the guided way through the plan marks what it covers", "[cli]") {
  Cover cover;
  cover.trial.done("joint J06 --replace 3 --why typo --critical --recheck '50 running h'");
  cover.trial.done(
      "joint J07 --holds lid --size M12x1.75 --grade 8.8 --count 2 --spec '80 N·m' "
      "--covers J06");
  cover.trial.done("out J07/1-2");
  cover.trial.keyboard = true;
  std::string typed;
  for (int step = 0; step < 12; ++step) typed += "d\n";
  // The one who tightened it is not the second person.
  typed += "KB\nLM\ny\n1240 km\n1240 running h\n";
  for (int step = 0; step < 4; ++step) typed += "d\n";
  cover.trial.typed = typed;
  const auto answer = cover.trial.done("tighten");
  CHECK_THAT(answer.said(), ContainsSubstring("has to be made by another person") &&
                                ContainsSubstring("is looked at again after 50 running h"));
  CHECK_THAT(answer.told(), ContainsSubstring("J06/1-4 final stripe"));
  cover.trial.now += std::chrono::minutes(1);
  cover.trial.done("stripe J07/1-2 --wiped");
  const auto audit = cover.trial.run("audit --json").json();
  for (const auto& each : audit["deviations"]) {
    INFO(each["id"]);
    CHECK(each["level"] != "hold");
  }
  CHECK(cover.trial.run("recheck --json").json()["due"][0]["due_counter"] == "1290 running h");
  // Once it is on, nothing is led to under it.
  cover.trial.done("recheck J06/2 'turned 10°' --counter '1250 running h'");
  cover.trial.typed = "d\n";
  const auto refused = cover.trial.run("tighten J06");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(), ContainsSubstring("J07 is on over J06") &&
                                 ContainsSubstring("open it first: boltwitness out J07/1-2"));
}

TEST_CASE("--set takes the unit of the wrench, and names it where it is another one", "[cli]") {
  Cover cover;
  CHECK_THAT(cover.trial.done("tighten J06/1-2 --set '56 N·m'").told(),
             ContainsSubstring("TW2 at 56 N·m"));
  const auto refused = cover.trial.run("tighten J06/3-4 --set '41 ft·lbf'");
  CHECK(refused.code == 2);
  CHECK_THAT(refused.said(), ContainsSubstring("41 ft·lbf: the scale of TW2 is in N·m"));
  CHECK(cover.trial.run("tighten J06/3-4 --set '56 bar'").code == 2);
}

TEST_CASE("a hyphen for the stroke of an address is understood", "[cli]") {
  Cover cover;
  CHECK_THAT(cover.trial.run("out J06-2").said(), ContainsSubstring("did you mean J06/2?"));
  CHECK_THAT(cover.trial.run("found J06-1-2 70s --wrench TW2").said(),
             ContainsSubstring("did you mean J06/1-2?"));
}

TEST_CASE("history of a joint has what was done to put it back", "[cli]") {
  Cover cover;
  cover.trial.done("item CL1 --what clips --count 2 --before J06");
  for (int pass = 0; pass < 3; ++pass) cover.trial.done("tighten J06/1-4");
  cover.trial.done("stripe J06/1-2 --wiped");
  const auto joint = cover.trial.done("history J06").out;
  CHECK_THAT(joint, ContainsSubstring("CL1 off: 2 x clips"));
  CHECK_THAT(joint, ContainsSubstring("J06/1-4 pass 3"));
  CHECK_THAT(cover.trial.done("history J06/2").out, ContainsSubstring("J06/1-2 final stripe"));
  CHECK(cover.trial.done("history J06/4").out.find("final stripe") == std::string::npos);
}

TEST_CASE("one line at a final value that waits says on what it waits", "[cli]") {
  Cover cover;
  cover.then_pivot();
  const std::string caution =
      "J16: its final value is set when the box is loaded; recorded as it happened";
  CHECK_THAT(cover.trial.done("tighten J16/1-2").said(), !ContainsSubstring("final value"));
  CHECK_THAT(cover.trial.done("tighten J16/1-2").said(), ContainsSubstring(caution));
  // The guided way has asked and does not say it again.
  cover.trial.typed = "y\nd\nd\n";
  CHECK_THAT(cover.trial.done("tighten J16").said(), !ContainsSubstring("recorded as it"));
}

TEST_CASE("the guided way ends with the command for the final stripe", "[cli]") {
  Cover cover;
  for (int pass = 0; pass < 2; ++pass) cover.trial.done("tighten J06/1-4");
  cover.trial.typed = "d\nd\nd\nd\n";
  CHECK_THAT(cover.trial.done("tighten J06").out,
             ContainsSubstring("record it: boltwitness stripe J06/1-4"));
  cover.trial.done("stripe J06/1-3 --wiped");
  CHECK_THAT(cover.trial.done("tighten J06").out,
             ContainsSubstring("record it: boltwitness stripe J06/04 --wiped"));
  cover.trial.done("stripe J06/4 --wiped");
  CHECK_THAT(cover.trial.done("tighten J06").out, !ContainsSubstring("boltwitness stripe"));
}

TEST_CASE("an old pass is put right by the plan of then while a stripe is turned", "[cli]") {
  Cover cover;
  auto& trial = cover.trial;
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");  // lines 6 to 8
  trial.done("stripe J06/1-4 --wiped");
  trial.now += std::chrono::hours(24);
  trial.done("recheck J06/3 'turned 20°'");
  const auto same = trial.done("tighten J06/1-4 --replace 8 --why same");
  CHECK_THAT(same.out, ContainsSubstring("J06/1-4 pass 3, check to 80 N·m: done with TW2 at 80"));
  const auto set = trial.done("tighten J06/1-4 --replace 7 --why misread --set 78");
  CHECK_THAT(set.out, ContainsSubstring("J06/1-4 pass 2, torque to 80 N·m: done with TW2 at 78"));
  // Of the one that turned alone, too: its passes are others now.
  const auto alone = trial.done("tighten J06/3 --replace 6 --why 'three alone' --set 55");
  CHECK_THAT(alone.out, ContainsSubstring("J06/03 pass 1, torque to 56 N·m: done with TW2 at 55"));
}

TEST_CASE("an old pass is put right by the plan of now where that has another torque", "[cli]") {
  Cover cover;
  auto& trial = cover.trial;
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");  // lines 6 to 8
  trial.done("joint J06 --replace 4 --why misread --spec '60 N·m'");
  const auto anew = trial.done("tighten J06/1-4 --replace 7 --why misread --set 60");
  CHECK_THAT(anew.out, ContainsSubstring("J06/1-4 pass 2, torque to 60 N·m: done with TW2 at 60"));
}

TEST_CASE("a second look at a whole joint is split where last passes have other numbers", "[cli]") {
  Cover cover;
  auto& trial = cover.trial;
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/1-4");
  trial.done("stripe J06/1-4 --wiped");
  trial.now += std::chrono::hours(24);
  trial.done("recheck J06/2 'turned 20°'");
  trial.done("tighten J06/2 --seen 'all well'");
  for (int pass = 0; pass < 3; ++pass) trial.done("tighten J06/2");
  const auto check = trial.done("tighten J06/1-4 --check --by LM");
  CHECK_THAT(check.out,
             ContainsSubstring("J06/1,3-4 pass 3, check to 80 N·m: checked by a second") &&
                 ContainsSubstring("J06/02 pass 4, check to 80 N·m: checked by a second"));
  const auto joints = trial.run("status --json").json()["joints"];
  CHECK(joints[0]["second_check"] == 4);
}

}  // namespace tighten_test
