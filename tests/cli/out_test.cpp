// The command out: a joint opened more than once, and threads that came out damaged.

#include "support/bench.h"
#include "support/catch.h"

TEST_CASE("what was tightened in comes out a second time", "[cli]") {
  Bench bench;
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file("gb1.bolts");
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
  bench.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  bench.done("out J06/1-4");
  CHECK(bench.run("out J06/1").code == 1);
  bench.done("tighten J06/2 --skip 'thread dirty'");
  CHECK(bench.run("out J06/2").code == 1);
  bench.done("tighten J06/1");
  CHECK_THAT(bench.done("out J06/1").out, ContainsSubstring("4 of 4 accounted for"));
  CHECK(bench.run("out J06/1").code == 1);
}

TEST_CASE("a damaged thread is kept with the fastener that showed it", "[cli]") {
  Bench bench;
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file("gb1.bolts");
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  bench.done("out J06/1 --damaged-thread fastener");
  bench.done("out J06/2 --damaged-thread both");
  bench.done("out J06/3 --damaged-thread hole");
  const auto wrong = bench.run("out J06/4 --damaged-thread head");
  CHECK(wrong.code == 2);
  CHECK_THAT(wrong.said(), ContainsSubstring("fastener") && ContainsSubstring("hole"));
  const auto history = bench.done("history J06 --json").out;
  CHECK_THAT(history, ContainsSubstring("thread damaged: fastener and hole") &&
                          ContainsSubstring("thread damaged: hole"));
  const auto audit = bench.run("audit --json").json();
  int holds = 0;
  for (const auto& deviation : audit["deviations"]) {
    if (deviation["rule"] == "damaged thread") ++holds;
  }
  CHECK(holds == 3);
  // A hole needs repair and no new bolt of its own.
  const auto renewing = bench.done("renew").out;
  CHECK_THAT(renewing, ContainsSubstring("damaged thread") && ContainsSubstring("J06/1-2"));
}
