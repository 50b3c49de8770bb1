// A plan is the dearest thing that a command computes: none computes it twice.

#include "support/catch.h"
#include "support/plans_made.h"
#include "support/sample_job.h"

namespace one_plan_test {

namespace {

// How many plans this command computes.
int plans_of(Trial& trial, const std::string& command) {
  const int before = plans_made();
  const auto outcome = trial.run(command);
  INFO(command << '\n' << outcome.err);
  CHECK(outcome.code <= 1);
  return plans_made() - before;
}

}  // namespace

TEST_CASE("a command that needs the plan computes it once", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  for (const std::string command :
       {"audit", "audit --json", "sequence", "sequence J06", "sequence J06 J03 --json",
        "sequence J06 --extension 50mm --wrench-length 400mm", "sequence --html",
        "sequence J06 --html", "sequence --status", "sequence --explain", "report", "show J06",
        "show J06/3", "show J06 --json", "tighten --json", "recheck", "tighten J06/1 --pass 1",
        "stripe J06/1 --wiped", "recheck J06/1 aligned"}) {
    INFO(command);
    CHECK(plans_of(trial, command) == 1);
  }
}

TEST_CASE("a command that needs no plan computes none", "[cli]") {
  Trial trial;
  run_sample_job(trial);
  for (const std::string command :
       {"compare", "history", "search cover", "renew", "fluid", "item", "hold-point", "sheet",
        "labels", "bolt M12 --grade 8.8", "verify", "backup"}) {
    INFO(command);
    CHECK(plans_of(trial, command) == 0);
  }
}

TEST_CASE("a decision looks at the job before it and at the job after it", "[cli]") {
  Trial trial;
  trial.environment["BOLTWITNESS_LOG"] = trial.folder().file("gb1.bolts");
  trial.done("start " + trial.environment["BOLTWITNESS_LOG"] + " --machine GB-1");
  trial.done("joint J01 --holds cover --size M12 --grade 8.8 --count 2 --layout circle");
  trial.done("out J01/1");
  CHECK(plans_of(trial, "settle count-out:J01 --as use-as-is --why 'the other one stays in'") == 2);
}

}  // namespace one_plan_test
