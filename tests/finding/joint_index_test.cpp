#include "finding/joint_index.h"

#include "support/catch.h"
#include "support/job_builder.h"

namespace joint_index_test {

TEST_CASE("joints are found by code in any case of letters", "[finding]") {
  auto builder = JobBuilder().joint("J01").joint("j02");
  const auto survey = finding::survey(builder.job());
  const finding::JointIndex joints(survey);
  CHECK(joints.find("j01") == &survey.joints[0]);
  CHECK(joints.place_of("J02") == 1);
  CHECK(joints.find("J03") == nullptr);
  CHECK_FALSE(joints.place_of("J03").has_value());
}

}  // namespace joint_index_test
