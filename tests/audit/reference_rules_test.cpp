// What names something that is not in the logbook.

#include "audit/audit.h"
#include "support/catch.h"
#include "support/job_builder.h"
#include "support/reassembled.h"

namespace reference_rules_test {

using audit::Level;

namespace {

const record::Moment kNow = record::read_moment("2026-09-02T08:00:00Z");

std::vector<audit::Deviation> deviations_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, kNow}).deviations;
}

std::string ids(const record::Job& job) {
  std::string all;
  for (const auto& deviation : deviations_of(job)) all += deviation.id + ";";
  return all;
}

}  // namespace

TEST_CASE("rule: missing joint", "[audit]") {
  auto job = JobBuilder().wrench().joint("J01", 2).specified("J01");
  job.joint("J02", 2).specified("J02").last_joint().after = {"j01"};
  CHECK(ids(job.job()).empty());
  job.last_joint().after = {"J09"};
  const auto after = deviations_of(job.job());
  REQUIRE(after.size() == 1);
  CHECK(after[0].id == "missing-joint:J02:J09");
  CHECK(after[0].level == Level::Hold);
  CHECK_THAT(after[0].says, ContainsSubstring("--after names J09"));
  CHECK_THAT(after[0].what_to_do, ContainsSubstring("or --without after"));
  job.last_joint().after.clear();
  job.last_joint().covers = {"J01", "J08"};
  CHECK(ids(job.job()) == "missing-joint:J02:J08;");

  // An item and a hold point whose joint was struck since.
  auto others = JobBuilder().joint("J01", 2).specified("J01").job();
  others.items.push_back({next_stamp(others, kNow), {"CL1", "clips", 3, "J07"}});
  others.hold_points.push_back(
      {next_stamp(others, kNow), {"HV", "dead", std::nullopt, {"J01", "J06"}}});
  CHECK_THAT(ids(others), ContainsSubstring("missing-joint:CL1:J07;") &&
                              ContainsSubstring("missing-joint:HV:J06;"));
}

}  // namespace reference_rules_test
