// The command out: a joint opened more than once, and threads that came out damaged.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace out_test {

TEST_CASE("what was tightened in comes out a second time", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  trial.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  trial.done("out J06/1-4");
  CHECK(trial.run("out J06/1").code == 1);
  trial.done("tighten J06/2 --skip 'thread dirty'");
  CHECK(trial.run("out J06/2").code == 1);
  trial.done("tighten J06/1");
  CHECK_THAT(trial.done("out J06/1").out, ContainsSubstring("4 of 4 out now"));
  CHECK(trial.run("out J06/1").code == 1);
}

TEST_CASE("a damaged thread is kept with the fastener that showed it", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  trial.done("out J06/1 --damaged-thread fastener");
  trial.done("out J06/2 --damaged-thread both");
  trial.done("out J06/3 --damaged-thread hole");
  const auto wrong = trial.run("out J06/4 --damaged-thread head");
  CHECK(wrong.code == 2);
  CHECK_THAT(wrong.said(), ContainsSubstring("fastener") && ContainsSubstring("hole"));
  const auto history = trial.done("history J06 --json").out;
  CHECK_THAT(history, ContainsSubstring("thread damaged: fastener and hole") &&
                          ContainsSubstring("thread damaged: hole"));
  const auto audit = trial.run("audit --json").json();
  // The fasteners together, and each hole.
  std::vector<std::string> held;
  for (const auto& deviation : audit["deviations"]) {
    const auto id = deviation["id"].get<std::string>();
    if (id.starts_with("damaged-")) held.push_back(id);
  }
  CHECK(held == std::vector<std::string>{"damaged-thread:J06:fastener", "damaged-thread:J06/03",
                                         "damaged-hole:J06/02"});
  // A hole needs repair and no new bolt of its own.
  const auto renewing = trial.done("renew").out;
  CHECK_THAT(renewing, ContainsSubstring("damaged thread") && ContainsSubstring("J06/1-2"));
}

}  // namespace out_test
