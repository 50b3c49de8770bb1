// Long lists of a text answer are cut at a number of their own, on a terminal and in a pipe alike,
// and the command that is named prints all; JSON is never cut.

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/occurrences.h"
#include "support/trial.h"
#include "words/text.h"

namespace cut_list_test {

namespace {

std::string code_of(int joint) { return fmt::format("A{:02}", joint); }

// Forty joints of two one-time fasteners without a source, all of them out, and one of a hundred,
// which was tested. It is logged once, and each section has a copy.
class LargeJob {
 public:
  LargeJob() {
    static const LargeJob logged{Logged()};
    trial.now = logged.trial.now;
    trial.environment = logged.trial.environment;
    const auto& from = logged.trial.environment.at("BOLTWITNESS_LOG");
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
    std::filesystem::copy_file(from, trial.folder().file("m.bolts"));
  }

  // The same text on a terminal as in a pipe.
  std::string told(const std::string& command) {
    trial.terminal = false;
    const auto piped = trial.run(command).out;
    trial.terminal = true;
    CHECK(trial.run(command).out == piped);
    trial.terminal = false;
    return piped;
  }

  static constexpr int kJoints = 40;
  static constexpr int kTested = 60;
  Trial trial;

 private:
  struct Logged {};
  explicit LargeJob(Logged /*now*/) {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
    trial.environment["NO_COLOR"] = "1";
    trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    for (int joint = 1; joint <= kJoints; ++joint) {
      const auto& code = code_of(joint);
      trial.done("joint " + code +
                 " --holds lid --size M12 --grade 8.8 --count 2 --one-time --spec '80 N·m'");
      trial.done("out " + code + "/1-2 --bag 1");
    }
    trial.done(
        "joint Z1 --holds rim --size M12 --grade 8.8 --count 100 --spec '80 N·m' --source 'm p. "
        "1'");
    trial.done("out Z1/1-100 --bag 2");
    for (int position = 1; position <= kTested; ++position) {
      trial.done(fmt::format("found Z1/{} 76s 78s 80o 82p --wrench TW2", position));
    }
  }
};

// The command behind "and N more: boltwitness".
std::string command_for_all(const std::string& text, std::size_t more) {
  const auto before = fmt::format("and {} more: boltwitness ", more);
  const auto at = text.find(before);
  REQUIRE(at != std::string::npos);
  CHECK(occurrences(text, " more: boltwitness ") == 1);
  const auto from = at + before.size();
  return text.substr(from, text.find('\n', from) - from);
}

}  // namespace

TEST_CASE("long lists are cut and the command that is named prints the rest", "[cli][slow]") {
  LargeJob job;
  SECTION("audit") {
    // For each joint the one-time fasteners and the missing source.
    const auto all = job.trial.run("audit --json").json()["deviations"].size();
    REQUIRE(all >= 2 * LargeJob::kJoints);
    const auto count = [](const std::string& text) {
      return occurrences("\n" + text, "\nhold  ") + occurrences("\n" + text, "\ncheck ") +
             occurrences("\n" + text, "\nnote  ");
    };
    const auto cut = job.told("audit --why");
    CHECK(count(cut) == 20);
    CHECK(occurrences("\n" + cut, "\ncheck ") == 0);  // holds come first
    CHECK_THAT(cut, ContainsSubstring(fmt::format("{} holds, ", LargeJob::kJoints)));
    const auto command = command_for_all(cut, all - 20);
    CHECK(command == "audit --why --whole");
    const auto whole = job.told(command);
    CHECK(count(whole) == all);
    CHECK(whole.find(" more: ") == std::string::npos);
  }
  SECTION("renew") {
    const auto cut = job.told("renew");
    CHECK(occurrences(cut, ": one-time\n") == 20);
    CHECK_THAT(cut, ContainsSubstring("  80 x M12x1.75, 8.8\n"));  // counted whole
    const auto command = command_for_all(cut, 20);
    CHECK(command == "renew --whole");
    CHECK(occurrences(job.told(command), ": one-time\n") == 40);
    CHECK(job.told("renew A01").find(" more: ") == std::string::npos);
    CHECK(job.trial.run("renew --json").json()["to_buy"][0]["for"].size() == 80);
  }
  SECTION("history") {
    const auto all = job.trial.run("history --json").json()["lines"].size();
    const auto cut = job.told("history");
    CHECK(occurrences(cut, " KB: ") == 60);
    CHECK_THAT(cut, ContainsSubstring(fmt::format(" {}  2026-", all)));  // the last
    const auto command = command_for_all(cut, all - 60);
    CHECK(command == "history --whole");
    CHECK(occurrences(job.told(command), " KB: ") == all);
    const auto of_joint = command_for_all(job.told("history Z1"), LargeJob::kTested + 3 - 60);
    CHECK(of_joint == "history Z1 --whole");
    CHECK(occurrences(job.told(of_joint), " KB: ") == LargeJob::kTested + 3);
  }
  SECTION("compare") {
    const auto cut = job.told("compare Z1");
    CHECK(occurrences(cut, "\n  Z1/") == 40);
    const auto command = command_for_all(cut, 20);
    CHECK(command == "compare Z1 --whole");
    CHECK(occurrences(job.told(command), "\n  Z1/") == LargeJob::kTested);
    CHECK(job.trial.run("compare Z1 --json").json()["rows"].size() == 100);
    CHECK_THAT(job.told("compare"), ContainsSubstring("and 29 more: boltwitness compare --whole"));
  }
  SECTION("show and joint alone") {
    for (const auto* list : {"show", "joint"}) {
      const auto cut = job.told(list);
      CHECK(occurrences(cut, " lid\n") == 20);
      CHECK(command_for_all(cut, LargeJob::kJoints + 1 - 20) == "show --whole");
    }
    CHECK(occurrences(job.told("show --whole"), " lid\n") == LargeJob::kJoints);
    CHECK(occurrences(job.told("joint --whole"), " lid\n") == LargeJob::kJoints);
    CHECK(job.trial.run("show --json").json()["joints"].size() == LargeJob::kJoints + 1);
    CHECK(job.trial.run("joint A01 --whole").code == 2);
  }
  SECTION("show of a large joint, what is not within first") {
    job.trial.done("found Z1/60 40s 42s 44o 46p --wrench TW2");
    const auto cut = job.told("show Z1");
    CHECK(occurrences(cut, "within ") == 19);
    CHECK_THAT(cut, ContainsSubstring("low "));
    CHECK(command_for_all(cut, LargeJob::kTested - 20) == "show Z1 --whole");
    CHECK(occurrences(job.told("show Z1 --whole"), "within ") == LargeJob::kTested - 1);
    CHECK(job.trial.run("show Z1 --json").json()["positions"].size() == 100);
  }
  SECTION("search") {
    const auto all = job.trial.run("search lid --json").json()["lines"].size();
    REQUIRE(all >= LargeJob::kJoints);
    const auto cut = job.told("search lid");
    CHECK(occurrences(cut, "*lid*") == 20);
    const auto command = command_for_all(cut, all - 20);
    CHECK(command == "search \"lid\" --whole");
    CHECK(occurrences(job.told("search 'lid' --whole"), "*lid*") == all);
  }
  SECTION("compare with another teardown keeps the rows that went their own way") {
    const auto here = job.trial.environment["BOLTWITNESS_LOG"];
    const auto there = job.trial.folder().file("n.bolts");
    std::filesystem::copy_file(here, there);
    job.trial.done("found Z1/7 40s 42s 44o 46p --wrench TW2");
    const auto with = " --with '" + there + "'";
    const auto cut = job.told("compare" + with);
    CHECK_THAT(cut, ContainsSubstring("60 fasteners found in both: 1 outside") &&
                        ContainsSubstring("Z1/07") && ContainsSubstring("and 59 more: "));
    CHECK(occurrences(cut, "\n  Z1/") == 1);
    CHECK(occurrences(job.told("compare --whole" + with), "\n  Z1/") == LargeJob::kTested);
    CHECK(job.trial.run("compare --json" + with).json()["rows"].size() == LargeJob::kTested);
  }
  SECTION("wrench") {
    for (int wrench = 10; wrench < 40; ++wrench) {
      job.trial.done(fmt::format("wrench W{} --range '20..200 N·m' --graduation '1 N·m'", wrench));
    }
    const auto cut = job.told("wrench");
    CHECK(occurrences(cut, "20..200 N·m") == 20);
    CHECK(command_for_all(cut, 11) == "wrench --whole");
    CHECK(occurrences(job.told("wrench --whole"), "20..200 N·m") == 31);
  }
  SECTION("what scrolls away says once more what it comes to") {
    job.trial.terminal = true;
    job.trial.height = 24;
    const auto last_line = [&](const std::string& command) {
      auto text = job.trial.run(command).out;
      text.erase(text.find_last_not_of('\n') + 1);
      const auto part = text.rfind("\n\n");
      REQUIRE(part != std::string::npos);
      return text.substr(part + 2);
    };
    CHECK_THAT(last_line("audit"), ContainsSubstring("Not in order: 40 holds open") &&
                                       ContainsSubstring("one-time-fastener:A01"));
    CHECK_THAT(last_line("sequence"),
               ContainsSubstring("41 joints to go") && ContainsSubstring("pass 1: TW2 at "));
    CHECK_THAT(last_line("show Z1"), ContainsSubstring("Z1: where 2; next TW2 at "));
  }
  SECTION("prose stays within 100 columns however wide the terminal is") {
    job.trial.width = 200;
    for (const auto* command : {"audit --whole", "status --whole", "renew --whole",
                                "history --whole", "recheck", "hold-point", "tighten"}) {
      INFO(command);
      CHECK(widest_line(job.trial.run(command).out) <= 100);
    }
  }
}

}  // namespace cut_list_test
