// What a stranger asks of the first screen, at any time of the job and on a small terminal: which
// fastener is wrong, what comes next, with which wrench, is it finished, where is the bolt of hole
// 5. The answer stands in what is left in sight, 24 lines of 80 columns.

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "support/catch.h"
#include "support/sample_job.h"
#include "support/trial.h"
#include "words/text.h"

namespace first_screenful_test {

namespace {

constexpr std::size_t kRows = 24;

// The sample job as it stood at this moment.
class At {
 public:
  explicit At(const std::string& moment) : moment_(moment) {
    trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
    trial.environment["NO_COLOR"] = "1";
    run_sample_job(trial, moment);
    trial.terminal = true;
    trial.height = kRows;
  }

  // What is in sight with the prompt below it.
  std::string in_sight(std::size_t width = 80) {
    trial.width = width;
    const auto text = trial.run("status --at " + moment_).out;
    std::vector<std::string> lines;
    std::istringstream all(text);
    for (std::string line; std::getline(all, line);) {
      CHECK(words::display_width(line) <= width);
      lines.push_back(line);
    }
    std::string seen;
    const auto from = lines.size() < kRows ? 0 : lines.size() - (kRows - 1);
    for (std::size_t i = from; i < lines.size(); ++i) seen += lines[i] + '\n';
    return seen;
  }

  nlohmann::json json() { return trial.run("status --json --at " + moment_).json(); }

  Trial trial;

 private:
  std::string moment_;
};

std::string row_of(const std::string& text, const std::string& joint) {
  const auto at = text.find("\n  " + joint + " ");
  if (at == std::string::npos) return {};
  return text.substr(at + 1, text.find('\n', at + 1) - at - 1);
}

}  // namespace

TEST_CASE("in the midst of the teardown the first screenful answers", "[cli]") {
  At at("2025-05-14T08:31");  // J05 is being tested, J06 is untouched, J08 is out
  const auto text = at.in_sight();
  INFO(text);
  CHECK_THAT(text, ContainsSubstring("Not finished: 47 of 89 fasteners out, 3 holds open"));
  CHECK_THAT(text, ContainsSubstring("to settle: found-low:J08/05, found-high:J12/03"));
  CHECK_THAT(text, ContainsSubstring("next: boltwitness bench J05"));
  CHECK_THAT(text, ContainsSubstring("wrench: TW2"));
  CHECK_THAT(row_of(text, "J06"), ContainsSubstring("in ") && ContainsSubstring("test: TW2"));
  CHECK_THAT(row_of(text, "J10"), ContainsSubstring("take out, no test"));
  CHECK_THAT(row_of(text, "J08"), ContainsSubstring("C1") && ContainsSubstring("5 found-"));
  CHECK_THAT(row_of(text, "J03"), ContainsSubstring("1-5 A1, 6 empty"));
  // No pass is to be done yet.
  CHECK(text.find(" at ") == std::string::npos);
  CHECK(text.find("pass") == std::string::npos);
}

TEST_CASE("in the midst of the reassembly the first screenful answers", "[cli]") {
  At at("2025-05-21T09:50");  // J05 has its first pass
  const auto text = at.in_sight();
  INFO(text);
  CHECK_THAT(text, ContainsSubstring("Not finished: "));
  CHECK_THAT(text, ContainsSubstring("to do: J08/05 re-torque, J12/03 renew, J03/06 renew"));
  CHECK_THAT(text, ContainsSubstring("next: boltwitness tighten J05"));
  CHECK_THAT(text, ContainsSubstring("pass 2 open: TW2 at 49 N·m"));
  CHECK_THAT(row_of(text, "J05"), ContainsSubstring("1 of 3") && ContainsSubstring("  in ") &&
                                      ContainsSubstring("TW2 at 49 N·m"));
  CHECK_THAT(row_of(text, "J08"), ContainsSubstring("C1") && ContainsSubstring("TW2 at 59 N·m") &&
                                      ContainsSubstring("5 re-"));
  CHECK_THAT(row_of(text, "J06"), ContainsSubstring("done"));
  const auto step = at.json()["next"];
  CHECK(step["wrench"] == "TW2 at 49 N·m");
}

TEST_CASE("the first screenful of a finished job answers", "[cli]") {
  At at("2025-05-22T18:00");
  const auto text = at.in_sight();
  INFO(text);
  CHECK_THAT(text, ContainsSubstring("Finished: nothing is open"));
  CHECK(text.find("to settle") == std::string::npos);
  CHECK(text.find("next: boltwitness") == std::string::npos);
  CHECK_THAT(row_of(text, "J08"), ContainsSubstring("  in ") && ContainsSubstring("done"));
}

TEST_CASE("a narrow screen keeps where the fasteners are and which wrench is next", "[cli]") {
  At at("2025-05-21T09:50");
  const auto text = at.in_sight(60);
  INFO(text);
  CHECK_THAT(row_of(text, "J08"), ContainsSubstring("C1") && ContainsSubstring("TW2 at 59 N·m"));
}

TEST_CASE("a step that turns a fastener by an angle says that it takes no setting", "[cli]") {
  At at("2025-05-21T08:15");
  const auto step = at.json()["next"];
  CHECK(step["command"] == "tighten J10");
  CHECK(step["wrench"] == "none, turn 60° further");
}

TEST_CASE("a joint that was closed for the night ends no teardown", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
  trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  for (const std::string code : {"A1", "B2", "C3"}) {
    trial.done("joint " + code +
               " --holds lid --size M12 --length 60mm --grade 8.8 --count 2 --spec '80 N·m' "
               "--source 'm p. 1'");
  }
  const auto next = [&] {
    return trial.run("status --json").json()["next"]["command"].get<std::string>();
  };
  trial.done("out A1/1-2 --bag 1");
  trial.done("out B2/1-2 --bag 2");
  CHECK(next() == "bench C3");
  // The lid is screwed on again: while it is in hand it comes first.
  trial.done("tighten A1/1-2");
  CHECK(next() == "tighten A1");
  trial.done("tighten A1/1-2");
  CHECK(next() == "bench C3");
  trial.done("out C3/1-2 --bag 3");
  CHECK(next().starts_with("bench") == false);
}

TEST_CASE("of forty joints the one at hand is in sight, and those that are wrong", "[cli][slow]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("m.bolts");
  trial.done("start " + trial.folder().file("m.bolts") + " --machine M");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  for (int joint = 10; joint < 50; ++joint) {
    const auto code = "J" + std::to_string(joint);
    trial.done("joint " + code +
               " --holds lid --size M12 --length 60mm --grade 8.8 --count 2 --spec '80 N·m' "
               "--source 'm p. 1'");
    if (joint < 45) trial.done("out " + code + "/1-2 --bag B" + std::to_string(joint));
  }
  trial.done("found J44/2 40s 42s 44o 46p --wrench TW2");
  const auto text = trial.run("status").out;
  INFO(text);
  CHECK_THAT(row_of(text, "J45"), ContainsSubstring("test: TW2"));
  CHECK_THAT(row_of(text, "J44"), ContainsSubstring("2 found-low"));
  CHECK_THAT(text, ContainsSubstring("and 24 more: boltwitness status --whole"));
  CHECK(trial.run("status --json").json()["joints"].size() == 40);
  CHECK_THAT(row_of(trial.run("status --whole").out, "J30"), ContainsSubstring("B30"));
}

}  // namespace first_screenful_test
