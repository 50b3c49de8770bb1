// The commands fluid and item: what goes back beside the bolts.

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/trial.h"

namespace fluid_and_item_test {

namespace {

Trial& set_up(Trial& trial) {
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.folder().file("gb1.bolts") + " --machine GB-1");
  trial.done("joint J06 --holds cover --size M12 --grade 8.8 --count 4 --spec '80 N·m'");
  return trial;
}

}  // namespace

TEST_CASE("a fluid's balance shows the amounts as they were typed", "[cli]") {
  Trial trial;
  set_up(trial);
  CHECK_THAT(trial.done("fluid 'gear oil' --drained '1,2 L' --note dark").out,
             ContainsSubstring("1,2 L of gear oil drained, note: dark; still to go back at least"));
  trial.done("fluid 'gear oil' --drained '1.5 US qt'");
  CHECK_THAT(trial.done("fluid 'gear oil' --filled '1 L'").out,
             ContainsSubstring("still to go back at least 1.62 L"));
  CHECK_THAT(trial.done("fluid").out, ContainsSubstring("1,2 L (dark) + 1.5 US qt = 2.62 L"));
  const auto json = trial.done("fluid --json").json();
  const auto& fluid = json["fluids"][0];
  CHECK(fluid["fluid"] == "gear oil");
  CHECK(fluid["drained"][1]["typed"] == "1.5 US qt");
  CHECK(fluid["drained"][0]["by"] == "KB");
  CHECK(fluid["drained_ml"] == 2619.529419);
  CHECK(fluid["filled_ml"] == 1000.0);
  CHECK(fluid["still_to_go_back_ml"] == 1619.529419);
}

TEST_CASE("more fluid than came out is recorded and said", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("fluid oil --drained '1.2 L'");
  const auto answer = trial.done("fluid OIL --filled '1.3 L'");
  CHECK_THAT(answer.out, ContainsSubstring("100 mL more went in than came out"));
  CHECK_THAT(answer.err, ContainsSubstring("look at the level"));
}

TEST_CASE("a fluid that was never drained may be a slip of the keys", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("fluid 'gear oil' --drained '1.2 L'");
  CHECK_THAT(trial.done("fluid 'gear ol' --filled '1.2 L'").err,
             ContainsSubstring("no gear ol was drained; did you mean gear oil?"));
  trial.done("fluid 'gear oil' --filled '1.2 L' --replace 5 --why 'wrong name'");
  CHECK(trial.done("fluid --json").json()["fluids"].size() == 1);
  const auto unknown = trial.run("fluid coolant");
  CHECK(unknown.code == 1);
}

TEST_CASE("a fluid without a sound amount is bad input", "[cli]") {
  Trial trial;
  set_up(trial);
  for (const auto* command :
       {"fluid oil --drained 1.2", "fluid oil --drained '2 qt'", "fluid oil --drained '0 L'",
        "fluid --drained '1 L'", "fluid oil --note dark",
        "fluid oil --drained '1 L' --filled '1 L'"}) {
    INFO(command);
    CHECK(trial.run(command).code == 2);
  }
  CHECK(trial.done("fluid --json").json()["fluids"].empty());
}

TEST_CASE("items are counted off and back", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("item CL1 --what 'hose clips' --count 6 --before j06");
  CHECK_THAT(trial.done("item cl1 --back 4").out, ContainsSubstring("6 off, 4 back, 2 missing"));
  const auto json = trial.done("item --json").json();
  const auto& item = json["items"][0];
  CHECK(item["code"] == "CL1");
  CHECK(item["before"] == "J06");
  CHECK(item["missing"] == 2);
  CHECK_THAT(trial.done("item").out, ContainsSubstring("hose clips"));
}

TEST_CASE("no more of an item goes back than came off", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("item CL1 --what clips --count 6");
  trial.done("item CL1 --back 4");
  const auto refused = trial.run("item CL1 --back 3");
  CHECK(refused.code == 1);
  CHECK_THAT(refused.err, ContainsSubstring("7 would be back of 6 that came off"));
  // Nor may the count be corrected below what is back.
  CHECK(trial.run("item CL1 --what clips --count 3 --replace 4 --why 'counted again'").code == 1);
  trial.done("item CL1 --what clips --count 5 --replace 4 --why 'counted again'");
  CHECK(trial.done("item --json").json()["items"][0]["missing"] == 1);
}

TEST_CASE("an item comes off a second time only when all of it was back", "[cli]") {
  Trial trial;
  set_up(trial);
  trial.done("item CL1 --what clips --count 6");
  CHECK(trial.run("item CL1 --what clips --count 6").code == 1);
  trial.done("item CL1 --back 6");
  trial.done("item CL1 --count 2");
  const auto json = trial.done("item CL1 --json").json();
  CHECK(json["items"][0]["off"] == 8);
  CHECK(json["items"][0]["what"] == "clips");
}

TEST_CASE("an item that cannot be is refused", "[cli]") {
  Trial trial;
  set_up(trial);
  CHECK(trial.run("item CL1 --back 1").code == 1);
  CHECK(trial.run("item CL1 --what clips --count 6 --before J99").code == 1);
  for (const auto* command :
       {"item CL1 --count 6", "item CL1 --what clips --count 0", "item 1CL --what clips --count 6",
        "item --count 6", "item CL1 --what clips", "item CL1 --back 1 --count 2"}) {
    INFO(command);
    CHECK(trial.run(command).code == 2);
  }
  CHECK(trial.done("item --json").json()["items"].empty());
}

}  // namespace fluid_and_item_test
