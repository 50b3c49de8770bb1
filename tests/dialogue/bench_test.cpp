// The guided teardown over a pipe: one answer a line.

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/property.h"
#include "support/trial.h"

namespace bench_test {

namespace {

// A bearing cap with four positions at 80 N·m and one wrench.
class Cap {
 public:
  Cap() {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
    trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done(
        "joint J06 --holds 'bearing cap' --size M12x1.75 --grade 8.8 --count 4 --spec '80 N·m'");
  }

  // Types these answers, each a line, and closes the pipe.
  Outcome at_the_bench(const std::string& answers, const std::string& arguments = "J06") {
    trial.typed = answers;
    return trial.run("bench " + arguments);
  }

  // What the lines since the set-up say, struck ones marked.
  std::vector<std::string> lines() {
    const auto history = trial.done("history --json").json();
    std::vector<std::string> says;
    for (const auto& line : history["lines"]) {
      if (line["line"].get<int>() <= kSetUp) continue;
      says.push_back((line["struck"].is_null() ? "" : "STRUCK ") + line["says"].get<std::string>());
    }
    return says;
  }

  static constexpr int kSetUp = 4;
  Trial trial;
};

using Lines = std::vector<std::string>;

}  // namespace

TEST_CASE("the teardown asks only the next thing and says where it is", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\ns\n");
  CHECK(answer.code == 0);
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4: draw the mark, then break it loose"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4, next 48 N·m on TW2\n"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4, next 52 N·m on TW2\n  so far 48s; "));
  CHECK_THAT(answer.out, ContainsSubstring("stopped; bench J06 goes on here"));
  CHECK(answer.err.empty());
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "J06/01 pull 48s on TW2"});
}

TEST_CASE("what was taken out together and bagged waits for no test", "[dialogue]") {
  Cap cap;
  cap.trial.done("out J06/1-3 --bag 7");
  CHECK_THAT(cap.at_the_bench("q\n").out, ContainsSubstring("J06/04, 4 of 4: draw the mark"));
  CHECK_THAT(cap.at_the_bench("q\n", "").out, ContainsSubstring("J06  3 of 4 done"));
  // Named by itself it is tested all the same.
  CHECK_THAT(cap.at_the_bench("q\n", "J06/2").out, ContainsSubstring("J06/02, 1 of 1, next "));
}

TEST_CASE("the bench says of a joint that is covered what comes off first", "[dialogue]") {
  Cap cap;
  cap.trial.done("joint J07 --holds lid --size M8 --grade 8.8 --count 2 --covers J06");
  const auto covered = cap.at_the_bench("q\n");
  CHECK_THAT(covered.err, ContainsSubstring("J07 covers J06 and comes off first"));
  CHECK_THAT(covered.err, ContainsSubstring("J07/1-2"));
  CHECK_THAT(cap.at_the_bench("q\n", "J07").err, !ContainsSubstring("comes off first"));
  cap.trial.done("out J07/1");
  CHECK_THAT(cap.at_the_bench("q\n").err, ContainsSubstring("J07/02"));
  cap.trial.done("out J07/2");
  CHECK(cap.at_the_bench("q\n").err.empty());
}

TEST_CASE("single keys lead through a joint to its findings", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\ns\ns\no\nt\np\ne\nm\nz\n\n");
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "J06/01 pull 48s on TW2",
                             "J06/01 pull 52s on TW2", "J06/01 48s 52s 56o on TW2",
                             "J06/02 out, broke tight", "J06/02 49p on TW2", "J06/03 found empty",
                             "J06/04 out, broke seized, no mark"});
  CHECK_THAT(answer.out, ContainsSubstring("J06: 4 of 4 done"));
  CHECK_THAT(answer.out, ContainsSubstring("which joint?"));
  CHECK_THAT(answer.out, ContainsSubstring("N·m: low (72 to 88 N·m)"));
  CHECK_THAT(answer.said(), ContainsSubstring("the hole was found empty"));
  const auto found = cap.trial.done("compare --json").json()["rows"][0];
  CHECK(found["found"]["best_nm"] == 56.0);
}

TEST_CASE("Enter takes the setting proposed, a number another one", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\n\ns\n60\nn\n72s 6°\n80 on\n");
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4, set to 48 N·m on TW2"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4, set to 60 N·m on TW2"));
  CHECK_THAT(answer.out, ContainsSubstring("so far 48s 60n 72s 6°; "));
  CHECK(cap.lines().back() == "J06/01 48s 60n 72s 6° 80 on on TW2");
}

TEST_CASE("the bench resumes at the same pull, and nothing is lost or doubled", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\ns\ns\n");
  cap.at_the_bench("s\n");
  const auto last = cap.at_the_bench("o\n");
  CHECK_THAT(last.out, ContainsSubstring("so far 48s 52s 56s; "));
  CHECK_THAT(last.out, ContainsSubstring("J06/02, 2 of 4: draw the mark"));
  CHECK(cap.lines().back() == "J06/01 48s 52s 56s 60o on TW2");
  CHECK(cap.lines().size() == 5);
}

TEST_CASE("without a joint the bench offers the test that is under way", "[dialogue]") {
  Cap cap;
  CHECK_THAT(cap.at_the_bench("", "").out, ContainsSubstring("which joint?"));
  cap.at_the_bench("\ns\n", "J06/3");
  const auto offered = cap.at_the_bench("\nq\n", "");
  CHECK_THAT(offered.out, ContainsSubstring("a test is under way in J06: Enter goes on there"));
  CHECK_THAT(offered.out, ContainsSubstring("J06/03, 3 of 4, next 52 N·m on TW2"));
  const auto named = cap.at_the_bench("J06/2\nq\n", "");
  CHECK_THAT(named.out, ContainsSubstring("J06/02, 1 of 1: draw the mark"));
}

TEST_CASE("u takes back one answer after the other, by striking", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\ns\no\nu\np\nu\nu\nu\nu\n", "J06/1-2");
  CHECK(cap.lines() == Lines{"STRUCK J06/01 out, broke normal", "STRUCK J06/01 pull 48s on TW2",
                             "STRUCK J06/01 48s 52o on TW2", "STRUCK J06/01 48s 52p on TW2"});
  CHECK_THAT(answer.said(), ContainsSubstring("nothing has been answered here yet"));
  const auto history = cap.trial.done("history").out;
  CHECK_THAT(history, ContainsSubstring("taken back at the bench"));
}

TEST_CASE("u also takes back the last pull of an earlier sitting, but nothing else of it",
          "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\ns\ns\n");
  const auto answer = cap.at_the_bench("u\nu\nu\n");
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "STRUCK J06/01 pull 48s on TW2",
                             "STRUCK J06/01 pull 52s on TW2"});
  CHECK_THAT(answer.said(), ContainsSubstring("strike LINE --why"));
}

TEST_CASE("u after the last position of a joint leads back to it", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("e\nu\nz\nq\n", "J06/4");
  CHECK(cap.lines() == Lines{"STRUCK J06/04 found empty", "J06/04 out, broke seized"});
  CHECK_THAT(answer.out, ContainsSubstring("stopped; bench J06 goes on here"));
}

TEST_CASE("a search ends at the ceiling, and Enter enters what is known", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\n80s\n95\n88s\ns\n\n");
  CHECK_THAT(answer.said(), ContainsSubstring("95 N·m would pass the ceiling, the top of the "
                                              "tolerance; where it was pulled all the same, type "
                                              "it with the mark, such as 95s"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/01, 1 of 4, no further on TW2"));
  CHECK_THAT(answer.out, ContainsSubstring("Enter enters it so"));
  CHECK_THAT(answer.said(), ContainsSubstring("no setting is proposed here"));
  CHECK(cap.lines().back() == "J06/01 80s 88s on TW2");
  CHECK_THAT(answer.out, ContainsSubstring("J06/02, 2 of 4"));
}

TEST_CASE("a pull above the ceiling that was made is kept", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\n95o\n");
  CHECK(cap.lines().back() == "J06/01 95o on TW2");
}

TEST_CASE("f enters a test as it stands, but not an empty one", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\nf\ns\nf\n");
  CHECK_THAT(answer.said(), ContainsSubstring("J06/01: nothing has been pulled yet"));
  CHECK(cap.lines().back() == "J06/01 48s on TW2");
}

TEST_CASE("a position may be skipped, and gone to by its address", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("k\nJ06-4\ne\nJ06\nk\nk\nk\n");
  CHECK_THAT(answer.out, ContainsSubstring("J06/02, 2 of 4"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/04, 1 of 1"));
  CHECK_THAT(answer.out, ContainsSubstring("J06: 1 of 4 done, skipped 1-3"));
}

TEST_CASE("the wrench is the only one, or asked for, or named at any pull", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  const auto asked = cap.at_the_bench("\ntw2\ns\nTW3\n70s\nf\n", "J06/1");
  CHECK_THAT(asked.out, ContainsSubstring("which wrench? TW2, TW3"));
  CHECK_THAT(asked.out, ContainsSubstring("J06/01, 1 of 1, next 48 N·m on TW3"));
  CHECK(cap.lines().back() == "J06/01 70s on TW3");
  const auto lines = cap.lines();
  CHECK(std::ranges::find(lines, "J06/01 48s on TW2") != lines.end());
  CHECK_THAT(cap.at_the_bench("\n", "J06/2 --wrench TW3").out,
             ContainsSubstring("next 48 N·m on TW3"));
  // What one wrench was set to says nothing of another.
  const auto set_first = cap.at_the_bench("\n50\nTW2\n", "J06/3 --wrench TW3").out;
  CHECK_THAT(set_first, ContainsSubstring("set to 50 N·m on TW3"));
  CHECK_THAT(set_first, ContainsSubstring("next 48 N·m on TW2"));
  // A test under way stays on its wrench.
  cap.at_the_bench("s\n", "J06/2 --wrench TW3");
  CHECK_THAT(cap.at_the_bench("", "J06/2 --wrench TW2").out,
             ContainsSubstring("next 52 N·m on TW3"));
}

TEST_CASE("a wrong answer writes nothing and is asked again", "[dialogue]") {
  Cap cap;
  const auto broke =
      cap.at_the_bench("s\n72\n72s\nx\nJ09\nJ06/9\nJ06-9 60s 70o\nTW9\nJ06-03 60x\n");
  CHECK(cap.lines().empty());
  CHECK_THAT(broke.said(), ContainsSubstring("\"s\" is no key here; Enter t z"));
  CHECK_THAT(broke.said(), ContainsSubstring("first how it broke loose"));
  CHECK_THAT(broke.said(), ContainsSubstring("there is no joint \"J09\""));
  CHECK_THAT(broke.said(), ContainsSubstring("J06 has the positions 1 to 4; 9 is none of them"));
  cap.at_the_bench("\n");
  const auto pulled = cap.at_the_bench(
      "t\n60s 70s\n-5\n250s\n250\n0s\n72q\n60s 6°o\nJ06-03 60s 55o\nJ06-03 60s 70o TW9\nJ06 60s\n");
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal"});
  CHECK_THAT(pulled.said(), ContainsSubstring("one pull at a time here"));
  CHECK_THAT(pulled.said(), ContainsSubstring("TW2 cannot be set to 250 N·m"));
  CHECK_THAT(pulled.said(), ContainsSubstring("there is no wrench \"TW9\""));
  CHECK_THAT(pulled.said(), ContainsSubstring("settings must rise"));
  cap.at_the_bench("60s\n");
  CHECK_THAT(cap.at_the_bench("60s\n55\n").said(), ContainsSubstring("settings must rise"));
  CHECK(cap.lines().size() == 2);
}

TEST_CASE("? shows the keys of the prompt it stands at, and no others", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  const auto broke = cap.at_the_bench("?\nq\n").out;
  for (const auto* key : {"Enter:", "t z l r e:", "m:", "g:", "w:", "k:", "u:", "q:", "J07:"}) {
    CHECK_THAT(broke, ContainsSubstring(key));
  }
  for (const auto* key : {"s o p n:", "  f:", "72s 6°:", "TW3:"}) {
    CHECK_THAT(broke, !ContainsSubstring(key));
  }
  auto wrench = cap.at_the_bench("\n?\nq\n", "J06/1").out;
  wrench = wrench.substr(wrench.find("which wrench?"));
  CHECK_THAT(wrench, ContainsSubstring("TW3:") && ContainsSubstring("u:"));
  CHECK_THAT(wrench, !ContainsSubstring("s o p n:") && !ContainsSubstring("t z l r e:"));
  const auto pull = cap.at_the_bench("?\nq\n", "J06/1 --wrench TW2").out;
  for (const auto* key : {"s o p n:", "Enter:", "f:", "72s 6°:", "TW3:", "k:", "u:", "q:"}) {
    CHECK_THAT(pull, ContainsSubstring(key));
  }
  CHECK_THAT(pull, !ContainsSubstring("t z l r e:") && !ContainsSubstring("  m:"));
  const auto joint = cap.at_the_bench("?\nq\n", "").out;
  CHECK_THAT(joint, ContainsSubstring("J06, J06/1-4:") && ContainsSubstring("q:"));
  CHECK_THAT(joint, !ContainsSubstring("s o p n:") && !ContainsSubstring("  k:") &&
                        !ContainsSubstring("t z l r e:"));
}

TEST_CASE("n is a pull without movement and nothing else", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("n\nq\n");
  CHECK_THAT(answer.out, ContainsSubstring("Enter normal, t tight"));
  CHECK_THAT(answer.said(), ContainsSubstring("\"n\" is no key here"));
  CHECK(cap.lines().empty());
}

TEST_CASE("a wrench named before the fastener is out is taken, and nothing is recorded",
          "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW1 --range '5..50 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  const auto answer = cap.at_the_bench("TW1\n\nq\n", "J06/1 --wrench TW2");
  CHECK(answer.err.empty());
  CHECK_THAT(answer.out, ContainsSubstring("on TW1"));
  CHECK(cap.lines().back() == "J06/01 out, broke normal");
}

TEST_CASE("a key that means something while tightening alone records nothing at the bench",
          "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\n");
  for (const std::string key : {"d", "v", "y"}) {
    CHECK_THAT(cap.at_the_bench(key + "\nq\n").said(),
               ContainsSubstring("\"" + key + "\" is no key here"));
    CHECK_THAT(cap.at_the_bench(key + "\nq\n", "J06/2").said(),
               ContainsSubstring("\"" + key + "\" is no key here"));
  }
  CHECK(cap.lines().size() == 1);
}

TEST_CASE("a key that does not count is told with those that do", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("x\n\ns\n");
  CHECK_THAT(answer.said(),
             ContainsSubstring("\"x\" is no key here; Enter t z l r e m g w k u q ? are"));
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal", "J06/01 pull 48s on TW2"});
  CHECK_THAT(cap.at_the_bench("t\n").said(),
             ContainsSubstring("\"t\" is no key here; Enter s o p n b f g w k u q ? are"));
}

TEST_CASE("nothing that is typed at the bench commands the terminal", "[dialogue]") {
  Cap cap;
  for (const std::string start : {"", "\n"}) {
    for (const std::string raw : {"\x1b[2J", "\xff",
                                  "\xc2\x9b"
                                  "31m",
                                  "\xed\xa0\x80", "\x07"}) {
      for (const std::string& line : {raw, "J06" + raw, "J06-1 " + raw, "60" + raw, "60s " + raw,
                                      "J06-1 60s 70o " + raw, "TW2" + raw, "abc " + raw + " def"}) {
        const auto answer = cap.at_the_bench(start + line + "\nq\n", "J06/2");
        INFO(answer.err);
        CHECK(answer.err.find(raw) == std::string::npos);
        CHECK(answer.out.find(raw) == std::string::npos);
      }
    }
  }
}

TEST_CASE("the question for the wrench says for which position", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  CHECK_THAT(cap.at_the_bench("k\n\n").out,
             ContainsSubstring("J06/02, 2 of 4: which wrench? TW2, TW3"));
}

TEST_CASE("the bench respects a hold point as out does", "[dialogue]") {
  Cap cap;
  cap.trial.done("hold-point HV --what 'rails dead' --before J06");
  const auto refused = cap.at_the_bench("\n");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.said(),
             ContainsSubstring("J06 is behind a hold point: hold point HV (rails dead)"));
  CHECK(cap.lines().size() == 1);
}

TEST_CASE("what cannot be is refused before anything is asked", "[dialogue]") {
  Cap cap;
  CHECK(cap.at_the_bench("", "J99").code == 1);
  CHECK(cap.at_the_bench("", "J06/9").code == 2);
  CHECK(cap.at_the_bench("", "J06 --wrench TW9").code == 1);
  CHECK(cap.at_the_bench("", "J06 --restart sideways").code == 2);
  CHECK(cap.at_the_bench("", "J06 --json").code == 2);
}

TEST_CASE("a joint that is open a second time is torn down a second time", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\ns\no\n", "J06/1");
  cap.trial.done("tighten J06/1");
  // Asked first, since a key would take a joint apart that is back together.
  const auto left = cap.at_the_bench("\nq\n", "J06/1-4");
  CHECK_THAT(left.out, ContainsSubstring("J06 is back together, tightened") &&
                           !ContainsSubstring("draw the mark"));
  const auto again = cap.at_the_bench("y\nt\ns\n", "J06/1-4");
  CHECK_THAT(again.out, ContainsSubstring("J06/01, 1 of 4: draw the mark"));
  CHECK_THAT(again.out, ContainsSubstring("J06/01, 1 of 4, next 52 N·m"));
}

TEST_CASE("one position named by itself is tested a second time", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\n60s\n80o\n", "J06/1");
  cap.at_the_bench("70s\n75s\n80o\n", "J06/1 --restart backed-off");
  CHECK(cap.lines().back() == "J06/01 70s 75s 80o on TW2, backed-off");
  CHECK_THAT(cap.at_the_bench("", "J06/1-2").out, ContainsSubstring("J06/02, 2 of 2"));
}

TEST_CASE("after a pull that moved nothing the bench asks how the next one is started",
          "[dialogue]") {
  Cap cap;
  const auto asked = cap.at_the_bench("\n60s\n70n\nb\n75s\n80o\n", "J06/1");
  CHECK_THAT(asked.told(), ContainsSubstring("b Enter where it is backed off before each pull"));
  CHECK(cap.lines().back() == "J06/01 60s 70n 75s 80o on TW2, backed-off");
  // Not answered, it stays setting on setting, which the evidence supports, and the grade says so.
  cap.at_the_bench("\n60s\n70n\n75s\n80o\n", "J06/2");
  CHECK(cap.lines().back() == "J06/02 60s 70n 75s 80o on TW2");
  const auto rows = cap.trial.done("compare --json").json()["rows"];
  CHECK(rows[0]["grade"] == "A");
  CHECK(rows[1]["grade"] == "B");
  // Said once, it holds for the pulls of the next sitting at the same test.
  cap.at_the_bench("\n60n\nb\n70s\n", "J06/3");
  cap.at_the_bench("75s\n80o\n", "J06/3");
  CHECK(cap.lines().back() == "J06/03 60n 70s 75s 80o on TW2, backed-off");
  CHECK(cap.at_the_bench("\n60s\n", "J06/4").out.find("b where") == std::string::npos);
}

TEST_CASE("nobody is led past a joint that was struck meanwhile", "[dialogue]") {
  Cap cap;
  cap.trial.done("strike 3 --why 'wrong code'");
  CHECK(cap.at_the_bench("\n").code == 1);
}

TEST_CASE("the condition of a joint is said before its first fastener is touched", "[dialogue]") {
  Cap cap;
  cap.trial.done(
      "joint J07 --holds cover --size M8 --grade 8.8 --count 2 --spec '20 N·m' --condition oiled");
  const auto answer = cap.at_the_bench("\nJ07\nq\n").out;
  CHECK_THAT(answer, ContainsSubstring("J06 bearing cap: 4 x M12x1.75, 8.8; specified 80 N·m, "
                                       "as-received\n          01\n"));
  CHECK(answer.find("as-received") < answer.find("J06/01, 1 of 4: draw the mark"));
  CHECK_THAT(answer, ContainsSubstring("J07 cover: 2 x M8x1.25, 8.8; specified 20 N·m, oiled\n"
                                       "    01  02\n\nJ07/01, 1 of 2: draw the mark"));
  // Once at each, not at every prompt.
  CHECK(answer.find("bearing cap") == answer.rfind("bearing cap"));
}

TEST_CASE("which joint? lists those that are not done, and counts the others", "[dialogue]") {
  Cap cap;
  cap.trial.done("joint J07 --holds cover --size M8 --grade 8.8 --count 1 --spec '20 N·m'");
  cap.trial.done("joint case-split --holds lid --size M8 --grade 8.8 --count 12");
  cap.at_the_bench("e\ne\n", "J06");
  cap.at_the_bench("e\n", "J07");
  CHECK_THAT(cap.at_the_bench("", "").out,
             ContainsSubstring("which joint? Enter or q quits; ? for more\n"
                               "  J06          2 of 4 done  bearing cap, 4 x M12x1.75, 8.8\n"
                               "  case-split  0 of 12 done  lid, 12 x M8x1.25, 8.8\n"
                               "  1 joint done\n"));
  for (int joint = 20; joint < 40; ++joint) {
    cap.trial.done(fmt::format("joint J{} --holds flange --size M8 --grade 8.8 --count 1", joint));
  }
  const auto many = cap.at_the_bench("", "").out;
  CHECK_THAT(many, ContainsSubstring("  J29") &&
                       ContainsSubstring("  and 10 more: boltwitness show --whole\n"));
  CHECK_THAT(many, !ContainsSubstring("  J30"));
}

TEST_CASE("bag and note are answers of their own, before and after it came out", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("g\n7\nw\npaint under the head\n\n60s\n70o\n\nq\n");
  CHECK_THAT(answer.out, ContainsSubstring("  bag 7; note: paint under the head\n"));
  // The bag stays for the next one, the note does not.
  CHECK(cap.lines() == Lines{"J06/01 out, broke normal, bag 7, note: paint under the head",
                             "J06/01 pull 60s on TW2", "J06/01 60s 70o on TW2",
                             "J06/02 out, broke normal, bag 7"});
  // It is out already: its line is put anew, and nothing asks for a command.
  const auto later = cap.at_the_bench("w\nthread dry\ng\n8\nu\nq\n", "J06/2");
  CHECK(later.code == 0);
  const auto lines = cap.lines();
  CHECK(lines[3] == "STRUCK J06/02 out, broke normal, bag 7");
  CHECK(lines.back() == "J06/02 out, broke normal, bag 7, note: thread dry");
  CHECK(std::ranges::count_if(
            lines, [](const auto& line) { return line.starts_with("J06/02 out"); }) == 1);
}

TEST_CASE("what was said of bag and note is taken back to what stood before", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\ng\n7\ng\n8\nw\nbent\nu\nu\nu\nu\nq\n", "J06/1");
  for (const auto& line : cap.lines()) CHECK(line.starts_with("STRUCK "));
  CHECK(cap.trial.done("show J06/1 --json").json()["row"]["out"] == false);
}

TEST_CASE("a bag or note that is left records nothing, and says so", "[dialogue]") {
  Cap cap;
  for (const std::string keys : {"g\n\nq\n", "w\n\nq\n", "g\n", "w\n"}) {
    const auto answer = cap.at_the_bench(keys);
    CHECK_THAT(answer.said(), ContainsSubstring("nothing was recorded"));
    CHECK_THAT(answer.out, !ContainsSubstring("  bag"));
  }
  CHECK(cap.lines().empty());
  // Several that came out in one line are put right by one command, which is named.
  cap.trial.done("out J06/1-4");
  const auto together = cap.at_the_bench("g\n7\nq\n");
  CHECK_THAT(together.said(), ContainsSubstring("line 5 took out J06/1-4 together") &&
                                  ContainsSubstring("boltwitness out J06/1-4 --replace 5"));
  CHECK(cap.lines().size() == 1);
}

TEST_CASE("the wrench used last is remembered where it covers what is expected", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  cap.trial.done("joint J07 --holds cover --size M8 --grade 8.8 --count 2 --spec '20 N·m'");
  cap.trial.done("wrench TW1 --range '5..30 N·m' --graduation '0.5 N·m' --calibrated 2026-03-02");
  const auto asked = cap.at_the_bench("\nTW3\n70s\n80o\n\n", "J06").out;
  CHECK_THAT(asked,
             ContainsSubstring("which wrench? TW2, TW3; 72 N·m to 88 N·m not covered by TW1\n"
                               "  (5..30 N·m)\n"));
  CHECK_THAT(asked, ContainsSubstring("J06/02, 2 of 4, next"));
  // In the next sitting too, without being asked.
  const auto again = cap.at_the_bench("\n", "J06/3").out;
  CHECK_THAT(again, ContainsSubstring("on TW3\n") && !ContainsSubstring("which wrench?"));
  // Not where it does not reach down; the only one that does is taken with Enter.
  const auto other = cap.at_the_bench("\nJ07\n\n\n", "J06/4").out;
  CHECK_THAT(other, ContainsSubstring("J07/01, 1 of 2: which wrench? TW1; 18 N·m to 22 N·m not "));
  CHECK_THAT(other, ContainsSubstring("TW3 (40..340 N·m); Enter takes TW1"));
  CHECK_THAT(other, ContainsSubstring("next 12 N·m on TW1"));
}

TEST_CASE("a wrench that is out of calibration is told apart and never taken unasked",
          "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW1 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2024-03-02");
  const auto asked = cap.at_the_bench("\n\n70s\n", "J06").out;
  CHECK_THAT(asked, ContainsSubstring("which wrench? TW2; not fit: TW1 (out of calibration since\n"
                                      "  2025-03-02); Enter takes TW2"));
  CHECK(cap.lines().back() == "J06/01 pull 70s on TW2");
  // The one used last, once that has run out.
  cap.trial.now += std::chrono::days(400);
  CHECK_THAT(cap.at_the_bench("\nq\n", "J06/2").out,
             ContainsSubstring("no wrench for it is in calibration; which one all the same? TW2"));
}

TEST_CASE("a setting may be typed with the unit of the wrench, and with no other", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\n60 N·m\ns\n70 ft·lbf\nq\n");
  CHECK(cap.lines().back() == "J06/01 pull 60s on TW2");
  CHECK_THAT(answer.said(), ContainsSubstring("70 ft·lbf: the scale of TW2 is in N·m"));
}

TEST_CASE("where no wrench covers what is expected, what is needed is named", "[dialogue]") {
  Cap cap;
  cap.trial.done("joint J09 --holds hub --size M30 --grade 8.8 --count 2 --spec '900 N·m'");
  const auto answer = cap.at_the_bench("\nTW2\nq\n", "J09/1");
  CHECK_THAT(answer.out, ContainsSubstring("J09/01, 1 of 1: no wrench here covers 810 N·m to "));
  CHECK_THAT(answer.out, ContainsSubstring("which one all the same? TW2 (20..200 N·m); k skips"));
  CHECK_THAT(answer.out, ContainsSubstring("on TW2"));
  CHECK_THAT(cap.at_the_bench("k\n", "J09/1").out,
             ContainsSubstring("J09: 0 of 1 done, skipped 1"));
}

TEST_CASE("a search begins near what its siblings were found at", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("\n76s\n80o\n\ns\n", "J06").out;
  CHECK_THAT(answer, ContainsSubstring("J06/01, 1 of 4, next 48 N·m on TW2"));
  // 0.88 of 80 is 70.4; a twelfth below it 73.8; 4 % below 72 is 69.1.
  CHECK_THAT(answer,
             ContainsSubstring("J06/02, 2 of 4, next 69 N·m on TW2\n  below the 80 N·m that "
                               "its sibling was found at"));
  CHECK_THAT(answer, ContainsSubstring("J06/02, 2 of 4, next 74 N·m on TW2"));
}

TEST_CASE("history of a position has its pulls", "[dialogue]") {
  Cap cap;
  cap.at_the_bench("\ns\n", "J06/3");
  CHECK_THAT(cap.trial.done("history J06/3").out, ContainsSubstring("J06/03 pull 48s on TW2"));
  CHECK(cap.trial.done("history J06/4").out.find("pull") == std::string::npos);
}

TEST_CASE("a shouted line is taken at any prompt", "[dialogue]") {
  Cap cap;
  CHECK(cap.at_the_bench("J06-03 60s 70s 75s 80o TW2\n", "").code == 0);
  CHECK(cap.lines() == Lines{"J06/03 60s 70s 75s 80o on TW2"});
  cap.at_the_bench("J06.4 70s 75p\n\nJ06/2 50s 55o on tw2\n");
  CHECK(cap.lines() == Lines{"J06/03 60s 70s 75s 80o on TW2", "J06/04 70s 75p on TW2",
                             "J06/01 out, broke normal", "J06/02 50s 55o on TW2"});
}

TEST_CASE("a shouted line does not lose the pulls that are under way", "[dialogue]") {
  Cap cap;
  const auto refused = cap.at_the_bench("\n60s\n70s\nJ06-1 75s 80o\n", "J06/1");
  CHECK_THAT(refused.said(), ContainsSubstring("J06/01 is under way at 60s 70s on TW2"));
  CHECK(cap.lines().size() == 3);
  cap.at_the_bench("J06-1 60s 70s 75s 80o\n", "J06/1");
  CHECK(cap.lines().back() == "J06/01 60s 70s 75s 80o on TW2");
  CHECK_THAT(cap.at_the_bench("", "J06").out, ContainsSubstring("J06/02, 2 of 4"));
}

TEST_CASE("a shouted line records what found records", "[dialogue]") {
  Cap shouting;
  Cap typing;
  holds_always("shouted line == found line", [&] {
    const int position = *rc::gen::inRange(1, 5);
    std::vector<std::string> pulls;
    int setting = 20;
    const int count = *rc::gen::inRange(1, 6);
    for (int pull = 0; pull < count; ++pull) {
      setting += *rc::gen::inRange(1, 30);
      const bool is_last = pull + 1 == count;
      pulls.push_back(fmt::format(
          "{}{}", setting,
          *rc::gen::element<std::string>("s", "n", "S", is_last ? "o" : "s", is_last ? "p" : "N")));
    }
    const auto address =
        fmt::format("{}{}{}", *rc::gen::element<std::string>("J06", "j06"),
                    *rc::gen::element<std::string>("-", "/", " ", ".", ":"),
                    fmt::format("{}{}", *rc::gen::element<std::string>("", "0"), position));
    const auto blank = *rc::gen::element<std::string>(" ", "  ", "\t");
    const auto wrench = *rc::gen::element<std::string>("TW2", "tw2");
    const auto readings = fmt::format("{}", fmt::join(pulls, blank));
    const auto line =
        *rc::gen::arbitrary<bool>()
            ? address + blank + readings + *rc::gen::element<std::string>(" ", " on ", " with ") +
                  wrench
            : address + *rc::gen::element<std::string>(" ", ": ") + wrench + blank + readings;
    shouting.trial.now = typing.trial.now;
    shouting.at_the_bench(line + "\n");
    typing.trial.done(fmt::format("found J06/{} {} --wrench TW2", position, fmt::join(pulls, " ")));
    RC_LOG() << line;
    RC_ASSERT(shouting.lines() == typing.lines());
    const auto compared = [](Cap& cap) { return cap.trial.done("compare --json").out; };
    RC_ASSERT(compared(shouting) == compared(typing));
  });
}

TEST_CASE("bag and note are taken at every prompt", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  // At "which joint?", how it broke loose, which wrench, and the pull.
  const auto answer = cap.at_the_bench(
      "bag 7\nNote: rust on the seat\nJ06/1-2\nnote painted\n\nBAG 8\nnote cleaned\nTW2\nnote "
      "thread "
      "well\nbag 9\n80o\nq\n",
      "");
  INFO(answer.out << answer.err);
  CHECK_THAT(answer.said(), ContainsSubstring("bag 7: goes down with what comes out next"));
  CHECK_THAT(answer.out, ContainsSubstring("bag 7; note: rust on the seat"));
  CHECK_THAT(answer.out, ContainsSubstring("bag 7; note: painted"));
  CHECK_THAT(answer.out, ContainsSubstring("  bag 9\n"));  // of those that follow
  const auto lines = cap.lines();
  const std::string struck = "STRUCK J06/01 out, broke normal, ";
  for (const auto* said : {"bag 7, note: painted", "bag 8, note: painted", "bag 8, note: cleaned",
                           "bag 8, note: thread well"}) {
    CHECK(std::ranges::count(lines, struck + said) == 1);
  }
  const auto shown = cap.trial.done("show J06/1").out;
  CHECK_THAT(shown, ContainsSubstring("bag 9"));
  CHECK_THAT(shown, ContainsSubstring("thread well"));
}

TEST_CASE("a bag or a note without a word behind it is asked back", "[dialogue]") {
  Cap cap;
  const auto answer = cap.at_the_bench("bag\nnote \nq\n", "J06/1");
  CHECK_THAT(answer.said(), ContainsSubstring("expected it behind the word, such as bag 7") &&
                                ContainsSubstring("such as note rust on the seat"));
  CHECK(cap.lines().empty());
}

TEST_CASE("a joint called bag is gone to", "[dialogue]") {
  Cap cap;
  cap.trial.done("joint BAG --holds net --size M8 --grade 8.8 --count 2 --spec '20 N·m'");
  CHECK_THAT(cap.at_the_bench("bag 2\nq\n", "").out, ContainsSubstring("BAG/02, 1 of 1"));
}

TEST_CASE("an unknown name where a wrench is asked for is told as a wrench", "[dialogue]") {
  Cap cap;
  cap.trial.done("wrench TW3 --range '40..340 N·m' --graduation '2 N·m' --calibrated 2026-03-02");
  const auto answer = cap.at_the_bench("\nTW9\nbig wrench\n72\nJ06/2\nq\n", "J06/1");
  const auto said = answer.said();
  INFO(said);
  CHECK_THAT(said,
             ContainsSubstring("there is no wrench \"TW9\" in this logbook; known are TW2, TW3"));
  CHECK_THAT(said, ContainsSubstring("there is no wrench \"big wrench\""));
  CHECK_THAT(said, ContainsSubstring("name one of the wrenches: TW2, TW3"));
  CHECK_THAT(said, !ContainsSubstring("joint"));
  CHECK_THAT(answer.out, ContainsSubstring("J06/02, 1 of 1"));  // a joint that there is is gone to
}

}  // namespace bench_test
