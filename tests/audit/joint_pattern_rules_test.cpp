#include "audit/audit.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace joint_pattern_rules_test {

using audit::Level;

namespace {

const record::Moment kNow = record::read_moment("2026-06-02T08:00:00Z");

std::vector<audit::Deviation> flagged(const JobBuilder& builder, const std::string& rule) {
  const auto survey = finding::survey(builder.job());
  std::vector<audit::Deviation> found;
  for (auto& deviation : audit::run({builder.job(), survey, kNow}).deviations) {
    if (deviation.rule == rule) found.push_back(std::move(deviation));
  }
  return found;
}

// A joint of six with these settings on the mark, each after a step of 1 N·m.
JobBuilder found_at(const std::vector<int>& settings, const std::string& specification) {
  JobBuilder job;
  job.wrench().joint("J01", 6).out("J01/1-6");
  if (!specification.empty()) job.specified("J01", specification);
  int position = 0;
  for (const int setting : settings) {
    job.found("J01/" + std::to_string(++position),
              std::to_string(setting - 1) + "s " + std::to_string(setting) + "o");
  }
  return job;
}

}  // namespace

TEST_CASE("rule: outlier, by the modified z-score", "[audit]") {
  // Worked by hand: median 80, deviations 1 0 0 1 2 40, MAD 1; 0.6745 · 40 / 1 = 27.0.
  const auto apart = flagged(found_at({79, 80, 80, 81, 78, 120}, "min 60 N·m"), "outlier");
  REQUIRE(apart.size() == 1);
  CHECK(apart[0].id == "outlier:J01/06");
  CHECK(apart[0].level == Level::Check);
  CHECK_THAT(apart[0].says, ContainsSubstring("27.0") && ContainsSubstring("3.5"));
}

TEST_CASE("rule: outlier is silent within the uncertainty, however alike the siblings", "[audit]") {
  // The score is infinite for MAD 0 and 4.0 by the mean deviation, but 3 N·m is less than U.
  CHECK(flagged(found_at({80, 80, 80, 80, 80, 83}, "80 N·m"), "outlier").empty());
  CHECK(flagged(found_at({78, 79, 80, 81, 82, 84}, "80 N·m"), "outlier").empty());
}

TEST_CASE("rule: outlier does not point at the right one where most are off", "[audit]") {
  CHECK(flagged(found_at({40, 41, 40, 42, 41, 80}, "80 N·m"), "outlier").empty());
}

TEST_CASE("rule: outlier, by the 20 % practice below five values", "[audit]") {
  const auto apart = flagged(found_at({80, 80, 60}, ""), "outlier");
  REQUIRE(apart.size() == 1);
  CHECK(apart[0].position == 3);
  CHECK_THAT(apart[0].says, ContainsSubstring("-25 %"));
  CHECK(flagged(found_at({80, 80, 66}, ""), "outlier").empty());
  CHECK(flagged(found_at({80, 60}, ""), "outlier").empty());
}

TEST_CASE("rule: outlier names the torque that it compares", "[audit]") {
  // 80 N·m like the others, 30 of which turn a locking nut: 50 clamp.
  auto job = found_at({80, 81, 79, 80, 80, 80}, "");
  job.last_finding().prevailing = quantity::read_torque("30 N·m");
  const auto apart = flagged(job, "outlier");
  REQUIRE(apart.size() == 1);
  CHECK_THAT(apart[0].says, ContainsSubstring("found 80") &&
                                ContainsSubstring(", 50 N·m without its running torque, where the "
                                                  "median of the 6 findings of this joint is 80"));
}

TEST_CASE("rule: outlier leaves what is low or high to its own rule", "[audit]") {
  const auto job = found_at({80, 80, 80, 80, 80, 40}, "80 N·m");
  CHECK(flagged(job, "outlier").empty());
  CHECK(flagged(job, "found low").size() == 1);
}

TEST_CASE("rule: whole joint off", "[audit]") {
  const auto off = flagged(found_at({50, 51, 50, 52, 50, 49}, "80 N·m"), "whole joint off");
  REQUIRE(off.size() == 1);
  CHECK(off[0].id == "whole-joint-off:J01");
  CHECK(off[0].level == Level::Check);
  CHECK_THAT(off[0].says, ContainsSubstring("0.62"));
  // One that is not low, or ratios that differ by more than 10 %: no one cause.
  CHECK(flagged(found_at({50, 51, 50, 52, 50, 80}, "80 N·m"), "whole joint off").empty());
  CHECK(flagged(found_at({50, 40, 50, 60, 50, 49}, "80 N·m"), "whole joint off").empty());
  CHECK(flagged(found_at({50, 50}, "80 N·m"), "whole joint off").empty());
}

TEST_CASE("a whole joint off by the ratio of two units says so", "[audit]") {
  // 80 / 1.3558 = 59.
  const auto off = flagged(found_at({59, 59, 59, 58}, "80 N·m"), "whole joint off");
  REQUIRE(off.size() == 1);
  CHECK_THAT(off[0].says, ContainsSubstring("ft·lbf"));
}

TEST_CASE("rule: outlier holds positions of different specifications against each by its share",
          "[audit]") {
  // Two of the six are dowel bolts with a torque of their own; every one is on its specification.
  const auto mixed = [](int last) {
    auto job = JobBuilder().wrench().joint("J01", 6).specified("J01", "80 N·m").out("J01/1-6");
    job.specified("J01", "min 100 N·m").last_specified().positions = {5, 6};
    job.last_specified().procedure = record::read_specification("150 N·m ±30 %");
    for (int position = 1; position <= 4; ++position) {
      job.found("J01/" + std::to_string(position), "79s 80o 81p");
    }
    return job.found("J01/5", "149s 150o 151p")
        .found("J01/6", std::to_string(last - 1) + "s " + std::to_string(last) + "o");
  };
  CHECK(flagged(mixed(151), "outlier").empty());
  // 180 of 150 is 1.20 where the others are at 1.00: within its wide tolerance, and apart.
  const auto apart = flagged(mixed(180), "outlier");
  REQUIRE(apart.size() == 1);
  CHECK(apart[0].position == 6);
  CHECK_THAT(apart[0].says, ContainsSubstring("1.20 of its specification") &&
                                ContainsSubstring("is 1.00 of what each is specified to"));
}

}  // namespace joint_pattern_rules_test
