#include "finding/not_to_be_tested.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace not_to_be_tested_test {

using finding::NoTest;

namespace {

std::vector<NoTest> of(const JobBuilder& builder, int position = 1) {
  const auto survey = finding::survey(builder.job());
  return finding::not_to_be_tested(survey.joints.front(), position);
}

}  // namespace

TEST_CASE("one-time fasteners tightened by angle are not tested", "[finding]") {
  auto builder = JobBuilder().joint("J01").specified("J01", "40 N·m, +90°");
  CHECK(of(builder).empty());
  builder.last_joint().one_time = true;
  CHECK(of(builder) == std::vector{NoTest::OneTimeAngle});
  auto by_torque = JobBuilder().joint("J01").specified("J01", "40 N·m");
  by_torque.last_joint().one_time = true;
  CHECK(of(by_torque).empty());
}

TEST_CASE("threadlocker and a live load are left alone, at the positions that have them",
          "[finding]") {
  auto builder = JobBuilder().joint("J01").specified("J01", "40 N·m");
  CHECK(of(builder).empty());
  builder.specified("J01", "40 N·m", "GB-1 p. 2", fastener::Condition::Threadlocker);
  builder.last_specified().positions = {2};
  CHECK(of(builder, 1).empty());
  CHECK(of(builder, 2) == std::vector{NoTest::Threadlocker});
  builder.last_joint().live_load = true;
  CHECK(of(builder, 1) == std::vector{NoTest::LiveLoad});
  const auto survey = finding::survey(builder.job());
  CHECK_THAT(finding::why_not_to_be_tested(survey.joints.front(), 2),
             ContainsSubstring("must not be tested: it holds a live load") &&
                 ContainsSubstring("threadlocker holds it"));
}

}  // namespace not_to_be_tested_test
