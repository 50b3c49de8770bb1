#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "logbook/recording.h"
#include "support/catch.h"
#include "support/trial.h"

namespace history_test {

namespace {

// Two joints, a finding that is struck and entered again at another position.
void fill(Trial& trial) {
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m'");
  trial.done("joint J06 --holds cap --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  trial.done("joint J07 --holds lid --size M8 --grade 8.8 --count 2");
  trial.done("out J06/1-4 --bag A --by LM");
  trial.done("found J06/03 60s 80o --wrench TW2");
  trial.done("found J06/04 60s 80o --wrench TW2 --replace 7 --why 'wrong position'");
}

}  // namespace

TEST_CASE("history shows every line, struck ones struck, with who and why", "[cli]") {
  Trial trial;
  fill(trial);
  const auto lines = trial.done("history --json").json()["lines"];
  REQUIRE(lines.size() == 8);
  CHECK(lines[0]["says"].get<std::string>().starts_with("logbook for GB-1"));
  CHECK(lines[5]["by"] == "LM");
  CHECK(lines[6]["line"] == 7);
  CHECK(lines[6]["struck"]["line"] == 8);
  CHECK(lines[6]["struck"]["why"] == "wrong position");
  CHECK(lines[7]["line"] == 9);
  CHECK(lines[7]["struck"].is_null());
  const auto text = trial.done("history").out;
  CHECK_THAT(text, ContainsSubstring("STRUCK J06/03") && ContainsSubstring("wrong position"));
}

TEST_CASE("history of a position keeps to what concerns it", "[cli]") {
  Trial trial;
  fill(trial);
  const auto numbers = [&](const std::string& address) {
    std::vector<int> found;
    const auto answer = trial.done("history " + address + " --json").json();
    for (const auto& line : answer["lines"]) {
      found.push_back(line["line"].get<int>());
    }
    return found;
  };
  CHECK(numbers("j06") == std::vector{3, 4, 6, 7, 9});
  CHECK(numbers("J06/3") == std::vector{3, 4, 6, 7});
  CHECK(numbers("J06/1-2") == std::vector{3, 4, 6});
  CHECK(numbers("J07") == std::vector{5});
  CHECK(trial.run("history J09").code == 1);
  const auto beyond = trial.run("history J06/99");
  CHECK(beyond.code == 2);
  CHECK_THAT(beyond.said(), ContainsSubstring("J06 has the positions 1 to 4; 99 is none of them"));
}

TEST_CASE("every kind of line is in the history of its joint, and can be struck", "[cli]") {
  Trial trial;
  fill(trial);
  auto logbook = logbook::Logbook::open_to_write(trial.folder().file("gb1.bolts"));
  logbook::Recording recording(
      logbook, {"KB", "00000000-0000-4000-8000-000000000001", trial.now, trial.now});
  record::Tightening tightening;
  tightening.joint = "J06";
  tightening.positions = {3};
  tightening.pass = 1;
  record::Disposition disposition;
  disposition.deviation = "no-source:J06";
  disposition.joint = "J06";
  disposition.evidence = "0123456789abcdef";
  disposition.reason = "as in the old book";
  recording.append(tightening);
  recording.append(record::FinalStripe{"J06", {3}, true, {}});
  recording.append(record::Recheck{"J06", {3}, {}, {}});
  recording.append(record::Renewal{"J06", {3}});
  recording.append(record::CountedItem{"CL1", "hose clips", 6, "J06"});
  recording.append(record::ItemReturn{"CL1", 4});
  recording.append(record::HoldPoint{"HV", "store discharged", {}, {"J06"}});
  recording.append(record::HoldPointStep{"HV", record::HoldPointMove::Passed, ""});
  recording.append(disposition);
  recording.append(record::FluidAmount{"gear oil", record::FluidMove::Drained,
                                       quantity::Volume::millilitres(900), "0.9 l", ""});
  recording.commit();
  const auto told = [&](const std::string& about) {
    std::vector<int> numbers;
    const auto answer = trial.done("history " + about + " --json").json();
    for (const auto& line : answer["lines"]) {
      if (line["line"] >= 10) numbers.push_back(line["line"].get<int>());
    }
    return numbers;
  };
  CHECK(told("J06/3") == std::vector{10, 11, 12, 13, 14, 16, 18});
  CHECK(told("J06/4") == std::vector{14, 16, 18});
  CHECK(told("J06") == told("J06/3"));
  CHECK(told("CL1") == std::vector{14, 15});
  CHECK(told("HV") == std::vector{16, 17});
  CHECK(told("").size() == 10);
  for (int line = 10; line < 20; ++line) {
    INFO(line);
    trial.done(fmt::format("strike {} --why 'never happened'", line));
    CHECK(trial.run(fmt::format("strike {} --why twice", line)).code == 1);
  }
  CHECK(told("J06/3") == std::vector{10, 11, 12, 13, 14, 16, 18});  // struck, and still readable
  const auto lines = trial.done("history --json").json()["lines"];
  for (const auto& line : lines) {
    if (line["line"] >= 10) CHECK(line["struck"]["why"] == "never happened");
  }
  const auto job = logbook::Logbook::open_to_read(trial.folder().file("gb1.bolts")).job();
  CHECK(job.tightenings.empty());
  CHECK(job.stripes.empty());
  CHECK(job.rechecks.empty());
  CHECK(job.renewals.empty());
  CHECK(job.items.empty());
  CHECK(job.item_returns.empty());
  CHECK(job.hold_points.empty());
  CHECK(job.hold_point_steps.empty());
  CHECK(job.dispositions.empty());
  CHECK(job.fluids.empty());
}

}  // namespace history_test
