// The commands fluid and item: what goes back beside the bolts.

#include "support/bench.h"
#include "support/catch.h"

namespace {

Bench& set_up(Bench& bench) {
  bench.environment["BOLTWITNESS_LOG"] = bench.folder().file("gb1.bolts");
  bench.done("start " + bench.folder().file("gb1.bolts") + " --machine GB-1");
  bench.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  return bench;
}

}  // namespace

TEST_CASE("a fluid's balance shows the amounts as they were typed", "[cli]") {
  Bench bench;
  set_up(bench);
  CHECK_THAT(bench.done("fluid 'gear oil' --drained '1,2 L' --note dark").out,
             ContainsSubstring("1,2 L of gear oil drained, note: dark; still to go back at least"));
  bench.done("fluid 'gear oil' --drained '1.5 US qt'");
  CHECK_THAT(bench.done("fluid 'gear oil' --filled '1 L'").out,
             ContainsSubstring("still to go back at least 1.62 L"));
  CHECK_THAT(bench.done("fluid").out, ContainsSubstring("1,2 L (dark) + 1.5 US qt = 2.62 L"));
  const auto json = bench.done("fluid --json").json();
  const auto& fluid = json["fluids"][0];
  CHECK(fluid["fluid"] == "gear oil");
  CHECK(fluid["drained"][1]["typed"] == "1.5 US qt");
  CHECK(fluid["drained"][0]["by"] == "KB");
  CHECK(fluid["drained_ml"] == 2619.529419);
  CHECK(fluid["filled_ml"] == 1000.0);
  CHECK(fluid["still_to_go_back_ml"] == 1619.529419);
}

TEST_CASE("more fluid than came out is recorded and said", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("fluid oil --drained '1.2 L'");
  const auto answer = bench.done("fluid OIL --filled '1.3 L'");
  CHECK_THAT(answer.out, ContainsSubstring("100 mL more went in than came out"));
  CHECK_THAT(answer.err, ContainsSubstring("look at the level"));
}

TEST_CASE("a fluid that was never drained may be a slip of the keys", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("fluid 'gear oil' --drained '1.2 L'");
  CHECK_THAT(bench.done("fluid 'gear ol' --filled '1.2 L'").err,
             ContainsSubstring("no gear ol was drained; did you mean gear oil?"));
  bench.done("fluid 'gear oil' --filled '1.2 L' --replace 5 --why 'wrong name'");
  CHECK(bench.done("fluid --json").json()["fluids"].size() == 1);
  const auto unknown = bench.run("fluid coolant");
  CHECK(unknown.code == 1);
}

TEST_CASE("a fluid without a sound amount is bad input", "[cli]") {
  Bench bench;
  set_up(bench);
  for (const auto* command :
       {"fluid oil --drained 1.2", "fluid oil --drained '2 qt'", "fluid oil --drained '0 L'",
        "fluid --drained '1 L'", "fluid oil --note dark",
        "fluid oil --drained '1 L' --filled '1 L'"}) {
    INFO(command);
    CHECK(bench.run(command).code == 2);
  }
  CHECK(bench.done("fluid --json").json()["fluids"].empty());
}

TEST_CASE("items are counted off and back", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("item CL1 --what 'hose clips' --count 6 --before j06");
  CHECK_THAT(bench.done("item cl1 --back 4").out, ContainsSubstring("6 off, 4 back, 2 missing"));
  const auto json = bench.done("item --json").json();
  const auto& item = json["items"][0];
  CHECK(item["code"] == "CL1");
  CHECK(item["before"] == "J06");
  CHECK(item["missing"] == 2);
  CHECK_THAT(bench.done("item").out, ContainsSubstring("hose clips"));
}

TEST_CASE("no more of an item goes back than came off", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("item CL1 --what clips --count 6");
  bench.done("item CL1 --back 4");
  const auto refused = bench.run("item CL1 --back 3");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.err, ContainsSubstring("7 would be back of 6 that came off"));
  // Nor may the count be corrected below what is back.
  CHECK(bench.run("item CL1 --what clips --count 3 --replace 4 --why 'counted again'").code == 1);
  bench.done("item CL1 --what clips --count 5 --replace 4 --why 'counted again'");
  CHECK(bench.done("item --json").json()["items"][0]["missing"] == 1);
}

TEST_CASE("an item comes off a second time only when all of it was back", "[cli]") {
  Bench bench;
  set_up(bench);
  bench.done("item CL1 --what clips --count 6");
  CHECK(bench.run("item CL1 --what clips --count 6").code == 1);
  bench.done("item CL1 --back 6");
  bench.done("item CL1 --count 2");
  const auto json = bench.done("item CL1 --json").json();
  CHECK(json["items"][0]["off"] == 8);
  CHECK(json["items"][0]["what"] == "clips");
}

TEST_CASE("an item that cannot be is refused", "[cli]") {
  Bench bench;
  set_up(bench);
  CHECK(bench.run("item CL1 --back 1").code == 1);
  CHECK(bench.run("item CL1 --what clips --count 6 --before J99").code == 1);
  for (const auto* command :
       {"item CL1 --count 6", "item CL1 --what clips --count 0", "item 1CL --what clips --count 6",
        "item --count 6", "item CL1 --what clips", "item CL1 --back 1 --count 2"}) {
    INFO(command);
    CHECK(bench.run(command).code == 2);
  }
  CHECK(bench.done("item --json").json()["items"].empty());
}
