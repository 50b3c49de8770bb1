// The command out, where a joint is opened more than once.

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
