// A logbook of an earlier version holds a decision that is dated before what it rests on; that
// version took it. It is read, and settles nothing.

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/forged_logbook.h"
#include "support/trial.h"

namespace early_decision_test {

namespace {

// Two bolts that ended below their tolerance at nine, and the decision to tighten them again, made
// at ten. Its rows once more, dated otherwise, as if an earlier version had written them; the line
// of now is struck.
class Low {
 public:
  explicit Low(const std::string& decided_at) : path(trial.folder().file("gb1.bolts")) {
    trial.environment["BOLTWITNESS_LOG"] = path;
    trial.done("start " + path + " --machine GB-1");
    trial.done("wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated 2026-03-02");
    trial.done("joint J01 --holds cap --size M12 --grade 8.8 --count 2 --spec '40 N·m, 80 N·m'");
    trial.done("out J01/1-2");
    trial.now += std::chrono::hours(1);
    trial.done("tighten J01/1-2");
    trial.done("tighten J01/1-2 --set 60");
    trial.now += std::chrono::hours(1);
    const auto lines =
        trial.done("settle under-torqued:J01 --as re-torque --why low --json").json();
    const auto line = lines["lines"][0]["line"].get<int>();
    forge(path, fmt::format(R"(
        INSERT INTO entry
          SELECT line + 1, '7fffffff-ffff-7fff-8fff-000000000001', kind, by_whom, '{1}', entered_at,
                 device FROM entry WHERE line = {0};
        INSERT INTO disposition
          SELECT '7fffffff-ffff-7fff-8fff-000000000001', deviation, rule, joint_code, position,
                 evidence, judged_on, decision, reason, second_person FROM disposition;
        INSERT INTO disposition_part
          SELECT '7fffffff-ffff-7fff-8fff-000000000001', deviation, position, evidence
            FROM disposition_part)",
                            line, decided_at));
    trial.done(fmt::format("strike {} --why 'another hand'", line));
  }

  nlohmann::json low() {
    const auto audit = trial.run("audit --json").json();
    for (const auto& each : audit["deviations"]) {
      if (each["id"] == "under-torqued:J01") return each;
    }
    return nullptr;
  }

  Trial trial;
  std::string path;
};

}  // namespace

TEST_CASE("a decision of an earlier version that is older than its evidence settles nothing",
          "[logbook]") {
  Low early("2026-06-01T08:30:00.000Z");
  const auto low = early.low();
  REQUIRE_FALSE(low.is_null());
  CHECK(low["settled"].is_null());
  CHECK_FALSE(low["settled_before"].is_null());
  CHECK(early.trial.run("audit").code == 1);
  CHECK_THAT(early.trial.run("sequence --status").out,
             ContainsSubstring("to settle: under-torqued:J01"));
  early.trial.width = 300;
  CHECK_THAT(early.trial.run("audit").out,
             ContainsSubstring("the decision is dated before what it rests on"));
  for (const std::string& command :
       {std::string("history"), "report --out " + early.trial.folder().file("r.html"),
        std::string("renew"), std::string("show J01")}) {
    INFO(command);
    CHECK(early.trial.run(command).code == 0);
  }
  // It is decided anew, and carried out by what comes then.
  early.trial.done("settle under-torqued:J01 --as re-torque --why low");
  CHECK(early.trial.run("audit").code == 1);
  while (early.trial.run("tighten J01/1-2").code == 0) {
  }
  early.trial.done("stripe J01/1-2 --wiped");
  CHECK(early.trial.run("audit").code == 0);
}

TEST_CASE("a decision of an earlier version that came after its evidence holds", "[logbook]") {
  Low in_time("2026-06-01T09:30:00.000Z");
  const auto audit = in_time.trial.run("audit --json");
  CHECK(audit.code == 1);
  CHECK(audit.json()["to_do"].size() == 1);  // decided, and the passes are open again
  CHECK(in_time.low().is_null());
}

}  // namespace early_decision_test
