#include "finding/survey.h"

#include "finding/test_bolt.h"
#include "support/catch.h"

using finding::Verdict;
using quantity::Torque;
using quantity::TorqueUnit;

namespace {

// A job of one joint with one fastener, its specification and a wrench in N·m.
record::Job job_with(const std::string& specification) {
  record::Job job;
  job.wrenches.push_back({{}, wrench_20_to_200()});
  record::Joint joint;
  joint.code = "J01";
  joint.count = 1;
  job.joints.push_back({{}, joint});
  record::Specified specified;
  specified.joint = "J01";
  specified.procedure = record::read_specification(specification);
  job.specifications.push_back({{}, specified});
  return job;
}

void add_finding(record::Job& job, record::Measured measured) {
  record::Entry<record::Measured> entry{{}, std::move(measured)};
  entry.stamp.line = static_cast<std::int64_t>(job.findings.size()) + 10;
  job.findings.push_back(std::move(entry));
}

}  // namespace

TEST_CASE("repeated findings are kept apart and never averaged", "[finding]") {
  auto job = job_with("80 N·m");
  add_finding(job, measured_with("60s 70o"));
  add_finding(job, measured_with("80s 90o"));
  const auto survey = finding::survey(job);
  const auto& position = survey.joints.front().positions.front();
  REQUIRE(position.findings.size() == 2);
  CHECK(position.findings[0].torque.best == Torque::newton_metres(70));
  CHECK(position.findings[1].torque.best == Torque::newton_metres(90));
  // The latest counts, as it is: not their mean of 80.
  CHECK(position.finding()->torque.best == Torque::newton_metres(90));
}

TEST_CASE("prevailing torque moves every limit of the verdict", "[finding]") {
  // Source: US Army TB 43-0218 (WE11, seen): 50 to 70 lbf·in recommended, 30 lbf·in to run the nut:
  // the wrench reads 80 to 100 lbf·in.
  auto job = job_with("50-70 in·lbf");
  job.wrenches.front().content.scale = {20.0, 200.0, TorqueUnit::InchPoundForce};
  auto measured = measured_with("84s 88s 90o");
  measured.unit = TorqueUnit::InchPoundForce;
  add_finding(job, measured);
  measured.prevailing = quantity::StatedTorque{30.0, TorqueUnit::InchPoundForce};
  add_finding(job, measured);
  const auto survey = finding::survey(job);
  const auto& findings = survey.joints.front().positions.front().findings;
  REQUIRE(findings.size() == 2);

  const auto& plain = *findings[0].window;
  CHECK_THAT(quantity::in_unit(*plain.low, TorqueUnit::InchPoundForce), WithinRel(50.0, 1e-12));
  CHECK(findings[0].verdict == Verdict::High);
  const auto& shifted = *findings[1].window;
  CHECK_THAT(quantity::in_unit(*shifted.low, TorqueUnit::InchPoundForce), WithinRel(80.0, 1e-12));
  CHECK_THAT(quantity::in_unit(*shifted.high, TorqueUnit::InchPoundForce), WithinRel(100.0, 1e-12));
  CHECK(findings[1].verdict == Verdict::Within);
  // 90 less the 30 that run the nut is what the middle of the specification, 60, asks for.
  CHECK_THAT(*findings[1].ratio, WithinRel(1.0, 1e-12));
}
