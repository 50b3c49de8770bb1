#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/content_of.h"
#include "support/trial.h"

namespace settle_test {

namespace {

// A joint of four with one fastener found low, and a critical one with a hole found empty.
void fill(Trial& trial) {
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m' --source p1");
  trial.done(
      "joint J07 --holds hook --size M8 --grade 8.8 --count 2 --critical --spec '25 N·m' --source "
      "p2");
  trial.done("out J06/1-4");
  trial.done("found J06/3 57s 61s 62o 63p --wrench TW2");
  trial.done("out J07/1");
  trial.done("out J07/2 --broke empty");
}

nlohmann::json deviation(Trial& trial, const std::string& id) {
  const auto audit = trial.run("audit --json").json();
  for (const auto& each : audit["deviations"]) {
    if (each["id"] == id) return each;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("audit exits 1 until every hold is settled", "[cli]") {
  Trial trial;
  fill(trial);
  CHECK(trial.run("audit").code == 1);
  CHECK(deviation(trial, "found-low:J06/03")["settled"].is_null());
  const auto first = trial.done("settle found-low:j06/3 --as re-torque --why 'gasket has settled'");
  CHECK_THAT(first.out, ContainsSubstring("settled found-low:J06/03: re-torque"));
  CHECK_THAT(first.err, ContainsSubstring("Not in order: 1 hold open, 1 decided and not done"));
  CHECK(trial.run("audit").code == 1);
  trial.done("settle found-empty:J07/02 --as renew --why 'never had one' --with LM");
  // No hold is open, but what was decided is still to be done.
  const auto answer = trial.run("audit --json");
  CHECK(answer.code == 1);
  CHECK(answer.json()["ready"] == true);
  CHECK(answer.json()["in_order"] == false);
  const auto settled = deviation(trial, "found-empty:J07/02")["settled"];
  CHECK(settled["as"] == "renew");
  CHECK(settled["why"] == "never had one");
  CHECK(settled["by"] == "KB");
  CHECK(settled["with"] == "LM");
  CHECK(settled["line"] == 12);
  CHECK(settled["at"].get<std::string>().starts_with("2026-06-01T08:"));
  CHECK(deviation(trial, "found-low:J06/03")["settled"]["with"].is_null());
}

TEST_CASE("audit leaves out what is settled, audit --all shows who decided what and why", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("settle found-low:J06/03 --as use-as-is --why 'gasket has settled' --with LM");
  const auto plain = trial.run("audit").told();
  CHECK_THAT(plain,
             !ContainsSubstring("found-low") && ContainsSubstring("1 settled (audit --all)"));
  const auto all = trial.run("audit --all").out;
  CHECK_THAT(all, ContainsSubstring("found-low:J06/03  SETTLED") &&
                      ContainsSubstring("use-as-is by KB with LM, 2026-06-01") &&
                      ContainsSubstring("gasket has settled"));
}

TEST_CASE("what is decided shows until the line that says it is done", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("joint J08 --holds lid --size M8 --grade 8.8 --count 1 --spec '25 N·m' --source p3");
  trial.done("out J08/1 --damaged-thread hole");
  trial.done("settle damaged-thread:J08/1 --as repair --why 'thread insert'");
  CHECK_THAT(trial.run("audit").out, ContainsSubstring("damaged-thread:J08/01  DECIDED, NOT DONE"));
  CHECK(deviation(trial, "damaged-thread:J08/01")["done"] == false);
  CHECK(trial.run("audit --json").json()["to_do"][0]["as"] == "repair");
  CHECK_THAT(trial.run("sequence --status").out, ContainsSubstring("J08/01 repair"));
  const auto neither = trial.run("settle damaged-thread:J08/1 --as repair");
  CHECK(neither.code == 2);
  CHECK_THAT(trial.done("settle damaged-thread:J08/1 --done 'insert fitted, gauge passes'").out,
             ContainsSubstring("insert fitted, gauge passes"));
  CHECK(deviation(trial, "damaged-thread:J08/01")["done"] == true);
  CHECK(trial.run("audit --json").json()["to_do"].empty());
  // Once is enough.
  CHECK(trial.run("settle damaged-thread:J08/1 --done 'again'").code == 1);
}

TEST_CASE("a new finding opens the deviation again and says so", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("settle found-low:J06/03 --as use-as-is --why 'as it was'");
  trial.done("found J06/3 56s 60s 61o 62p --wrench TW2");
  const auto again = trial.run("audit");
  CHECK(again.code == 1);
  CHECK_THAT(again.out, ContainsSubstring("OPEN AGAIN: line 12 came after the decision"));
  const auto json = deviation(trial, "found-low:J06/03");
  CHECK(json["settled"].is_null());
  CHECK(json["settled_before"]["as"] == "use-as-is");
  CHECK_THAT(json["settled_before"]["judged_on"].get<std::string>(), ContainsSubstring("found 62"));
  trial.done("settle found-low:J06/03 --as renew --why 'twice low'");
  CHECK(deviation(trial, "found-low:J06/03")["settled"]["as"] == "renew");
  // Both decisions stay in the history of the position.
  const auto lines = trial.done("history J06/3 --json").json()["lines"];
  int decisions = 0;
  for (const auto& line : lines) {
    if (line["says"].get<std::string>().starts_with("settled found-low:J06/03")) ++decisions;
  }
  CHECK(decisions == 2);
}

TEST_CASE("a decision that was struck counts no longer and stays readable", "[cli]") {
  Trial trial;
  fill(trial);
  trial.done("settle found-low:J06/03 --as use-as-is --why 'as it was'");
  const auto twice = trial.run("settle found-low:J06/03 --as renew --why 'second thoughts'");
  CHECK(twice.code == 1);
  CHECK_THAT(twice.err, ContainsSubstring("settled already") && ContainsSubstring("strike 11"));
  trial.done("strike 11 --why 'second thoughts'");
  CHECK(deviation(trial, "found-low:J06/03")["settled"].is_null());
  CHECK_THAT(trial.done("history J06/3").out,
             ContainsSubstring("STRUCK settled found-low:J06/03: use-as-is"));
  trial.done("settle found-low:J06/03 --as renew --why 'second thoughts'");
}

TEST_CASE("a critical joint needs a second person, who is another one", "[cli]") {
  Trial trial;
  fill(trial);
  const std::string command = "settle found-empty:J07/02 --as renew --why 'never had one'";
  const auto alone = trial.run(command);
  CHECK(alone.code == 1);
  CHECK_THAT(alone.err, ContainsSubstring("J07 is critical") && ContainsSubstring("--with"));
  const auto himself = trial.run(command + " --with kb");
  CHECK(himself.code == 1);
  CHECK_THAT(himself.err, ContainsSubstring("another"));
  trial.done(command + " --with LM");
}

TEST_CASE("settle refuses what it cannot place, and writes nothing", "[cli]") {
  Trial trial;
  fill(trial);
  const auto unknown = trial.run("settle found-low:J06/04 --as renew --why x");
  CHECK(unknown.code == 1);
  CHECK_THAT(unknown.err, ContainsSubstring("did you mean found-low:J06/03?"));
  const auto word = trial.run("settle found-low:J06/03 --as ignore --why x");
  CHECK(word.code == 2);
  CHECK_THAT(word.said(), ContainsSubstring("use-as-is, re-torque, renew, repair, correct-record"));
  CHECK(trial.run("settle found-low:J06/03 --as renew --why ' '").code == 2);
  CHECK(trial.run("settle found-low:J06/03 --as renew").code == 2);
  CHECK(trial.run("settle found-low:J06/03 --why x").code == 2);
  CHECK(trial.done("history --json").json()["lines"].size() == 10);
}

TEST_CASE("several deviations are settled by one decision, all or none", "[cli]") {
  Trial trial;
  fill(trial);
  CHECK(trial.run("settle found-low:J06/03 found-empty:J07/09 --as renew --why x --with LM").code ==
        1);
  CHECK(trial.run("settle found-low:J06/03 found-low:J06/03 --as renew --why x").code == 1);
  CHECK(deviation(trial, "found-low:J06/03")["settled"].is_null());
  const auto both =
      trial.done("settle found-low:J06/03 found-empty:J07/02 --as renew --why 'all new' --with LM");
  CHECK_THAT(both.out, ContainsSubstring("settled found-low:J06/03: renew") &&
                           ContainsSubstring("settled found-empty:J07/02: renew"));
  CHECK(deviation(trial, "found-low:J06/03")["settled"]["why"] == "all new");
  CHECK(deviation(trial, "found-empty:J07/02")["settled"]["why"] == "all new");
}

TEST_CASE("what is decided and not done is not in order, wherever it is asked", "[cli]") {
  Trial trial;
  fill(trial);
  CHECK_THAT(trial.run("audit").out, Catch::Matchers::StartsWith("Not in order: 2 holds open\n"));
  trial.done("settle found-empty:J07/02 --as use-as-is --why 'has none' --with LM");
  trial.done("settle found-low:J06/03 --as re-torque --why 'gasket has settled'");
  const auto audit = trial.run("audit");
  CHECK(audit.code == 1);
  CHECK_THAT(audit.out, Catch::Matchers::StartsWith("Not in order: 1 decided and not done\n"));
  CHECK_THAT(audit.out, !ContainsSubstring("No hold is open"));
  CHECK_THAT(trial.done("sequence").out, ContainsSubstring("1 decided and not done"));
  const auto status = trial.run("sequence --status --json");
  CHECK(status.code == 1);
  CHECK(status.json()["finished"] == false);
  CHECK(status.json()["to_do"].size() == 1);
  const auto page = trial.folder().file("report.html");
  trial.done("report --out " + page);
  const auto report = content_of(page);
  CHECK_THAT(report, ContainsSubstring("Not in order: 1 decided and not done."));
  CHECK_THAT(report, !ContainsSubstring("No hold is open."));

  trial.done("strike 12 --why 'decided anew'");
  trial.done("settle found-low:J06/03 --as use-as-is --why 'gasket has settled'");
  const auto clean = trial.done("audit");
  CHECK_THAT(clean.out, Catch::Matchers::StartsWith("In order: no hold is open\n"));
  CHECK(trial.done("audit --json").json()["in_order"] == true);
}

TEST_CASE("a rule is settled at some positions of a joint, and at no other", "[cli]") {
  Trial trial;
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m' --source p1");
  trial.done("out J06/1-4");
  for (const auto* position : {"1", "2", "4"}) {
    trial.done(std::string("found J06/") + position + " 57s 61s 62o 63p --wrench TW2");
  }
  const auto unknown = trial.run("settle found-low:J06/2-4 --as use-as-is --why 'gasket'");
  CHECK(unknown.code == 1);  // 3 was found in no way
  CHECK_THAT(unknown.said(), ContainsSubstring("found-low:J06/03"));
  CHECK(trial.run("settle found-low:J06/2 found-low:J06/02,4 --as use-as-is --why x").code == 1);
  const auto both = trial.done("settle found-low:j06/2,4 --as use-as-is --why 'gasket'");
  CHECK_THAT(both.out, ContainsSubstring("settled found-low:J06/2,4: use-as-is"));
  const auto group = deviation(trial, "found-low:J06");
  REQUIRE(group["parts"].size() == 3);
  CHECK(group["parts"][0]["settled"].is_null());
  CHECK(group["parts"][1]["settled"]["as"] == "use-as-is");
  CHECK(group["parts"][2]["settled"]["as"] == "use-as-is");
}

TEST_CASE("a decision that would mean nothing is refused with the way on", "[cli]") {
  Trial trial;
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 2 --spec '80 N·m' --source p1");
  trial.done("out J06/1-2");
  while (trial.run("tighten J06/1-2").code == 0) continue;
  trial.done("stripe J06/1-2 --wiped");
  trial.done("recheck J06/1 'turned 20°'");
  const auto before = trial.done("history --json").json()["lines"].size();
  const auto turned = trial.run("settle stripe-turned:J06/01 --as use-as-is --why 'looks well'");
  CHECK(turned.code == 1);
  CHECK_THAT(turned.said(), ContainsSubstring("stripe-turned:J06/01 cannot be settled as "
                                              "use-as-is") &&
                                ContainsSubstring("take re-torque, renew or repair"));
  CHECK(trial.done("history --json").json()["lines"].size() == before);
  trial.done("settle stripe-turned:J06/01 --as re-torque --why 'has lost its preload'");
}

TEST_CASE("a rule in a joint is settled whole where it stands as single ids", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  fill(trial);
  // One far below the other: each is a deviation of its own.
  trial.done("found J06/1 28s 30s 32o 33p --wrench TW2");
  REQUIRE(!deviation(trial, "found-low:J06/01").is_null());
  REQUIRE(!deviation(trial, "found-low:J06/03").is_null());
  REQUIRE(deviation(trial, "found-low:J06").is_null());
  const auto answer = trial.run("settle FOUND-LOW:j06 --as repair --why 'clean the seats'");
  CHECK(answer.code == 0);
  CHECK(deviation(trial, "found-low:J06/01")["settled"]["as"] == "repair");
  CHECK(deviation(trial, "found-low:J06/03")["settled"]["as"] == "repair");
  // Once more there is nothing to decide, and it says of what.
  const auto again = trial.run("settle found-low:J06 --as repair --why 'clean the seats'");
  CHECK(again.code == 1);
  CHECK_THAT(again.said(), ContainsSubstring("is settled already: repair by KB"));
  trial.done("settle found-low:J06 --done 'cleaned'");
  CHECK(trial.run("audit --json").json()["to_do"].empty());
}

TEST_CASE("of a rule in a joint what is settled stays so and the rest is taken", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  fill(trial);
  trial.done("found J06/1 28s 30s 32o 33p --wrench TW2");
  trial.done("settle found-low:J06/3 --as re-torque --why 'gasket'");
  trial.done("settle found-low:J06 --as use-as-is --why 'a cover'");
  CHECK(deviation(trial, "found-low:J06/03")["settled"]["as"] == "re-torque");
  CHECK(deviation(trial, "found-low:J06/01")["settled"]["as"] == "use-as-is");
  // Named besides it is named twice.
  trial.done("found J06/2 28s 30s 40o 41p --wrench TW2");
  const auto twice = trial.run("settle found-low:J06/2 found-low:J06 --as use-as-is --why x");
  CHECK(twice.code == 1);
  CHECK_THAT(twice.said(), ContainsSubstring("is named twice"));
  // A rule that finds nothing there names nothing.
  CHECK(trial.run("settle found-high:J06 --as use-as-is --why x").code == 1);
}

}  // namespace settle_test
