#include "finding/survey.h"

#include "finding/specification_group.h"
#include "finding/test_bolt.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace survey_test {

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
  auto measured = measured_with("84s 88s 90o 92p");
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

TEST_CASE("a position is judged by its own specification before that of the joint", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01", "80 N·m");
  builder.specified("J01", "50 N·m").last_specified().positions = {2, 4};
  builder.specified("J01", "30 N·m").last_specified().positions = {4};
  builder.specified("J01", "82 N·m");  // a later one of the joint does not touch the exceptions
  builder.found("J01/1", "70s 78s 82o 86p")
      .found("J01/2", "40s 48s 50o 52p")
      .found("J01/4", "40s 48s 50o 52p");
  const auto survey = finding::survey(builder.job());
  const auto& joint = survey.joints.front();
  const auto specified_at = [&](int position) {
    return write_exact(joint.at(position).specified->procedure);
  };
  CHECK(specified_at(1) == "82 N·m");
  CHECK(specified_at(2) == "50 N·m");
  CHECK(specified_at(3) == "82 N·m");
  CHECK(specified_at(4) == "30 N·m");
  CHECK(joint.at(2).window->nominal == Torque::newton_metres(50));
  CHECK(joint.at(2).finding()->verdict == Verdict::Within);
  CHECK(joint.at(4).finding()->verdict == Verdict::High);
  CHECK_THAT(*joint.at(2).finding()->ratio, WithinRel(1.0, 1e-12));
  CHECK_THAT(*joint.at(1).finding()->ratio, WithinRel(1.0, 1e-12));
}

TEST_CASE("positions with the same procedure and condition form one group", "[finding]") {
  auto builder = JobBuilder().joint("J01", 5).specified("J01", "80 N·m");
  builder.specified("J01", "50 N·m").last_specified().positions = {2, 4};
  builder.specified("J01", "80 N·m", "Bulletin 7").last_specified().positions = {5};
  auto survey = finding::survey(builder.job());
  auto groups = finding::specification_groups(survey.joints.front());
  REQUIRE(groups.size() == 2);
  CHECK(groups[0].positions == std::vector{1, 3, 5});
  CHECK(groups[1].positions == std::vector{2, 4});
  CHECK(groups[1].window->nominal == Torque::newton_metres(50));
  // Another condition is other work, whatever the torque.
  builder.specified("J01", "80 N·m", "p. 1", fastener::Condition::Oiled)
      .last_specified()
      .positions = {1};
  survey = finding::survey(builder.job());
  groups = finding::specification_groups(survey.joints.front());
  REQUIRE(groups.size() == 3);
  CHECK(groups[0].positions == std::vector{1});
}

TEST_CASE("only positions without a specification give a provisional torque", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01");
  builder.specified("J01", "30 N·m").last_specified().positions = {1};
  builder.found("J01/1", "28s 29s 30o").found("J01/2", "70s 74s 77s 80o");
  builder.found("J01/3", "70s 74s 77s 80o");
  const auto survey = finding::survey(builder.job());
  CHECK(finding::provisional_torque(survey.joints.front()) == Torque::newton_metres(80));
  CHECK(finding::specification_groups(survey.joints.front())[1].specified == nullptr);
  // What turned on at the first setting already cannot have been at 80.
  const auto bounded = finding::survey(builder.found("J01/4", "40o").job());
  CHECK_FALSE(finding::provisional_torque(bounded.joints.front()));
}

TEST_CASE("a specification for a position that the joint does not have is a stray", "[finding]") {
  auto builder = JobBuilder().joint("J01", 3);
  builder.specified("J01", "30 N·m").last_specified().positions = {3, 9};
  const auto survey = finding::survey(builder.job());
  REQUIRE(survey.strays.size() == 1);
  CHECK(survey.strays.front().position == 9);
  CHECK(survey.joints.front().at(3).specified != nullptr);
}

TEST_CASE("whatever speaks of a position or a joint that is not there is a stray", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01", 3);
  const auto* address = GENERATE("J01/4", "J99/1");
  builder.out(address).found(address, "79s 80o").pulled(address, "60s");
  builder.tightened(address, 1, 80, 80).striped(address).rechecked(address).renewed(address);
  auto job = builder.job();
  record::Photograph photograph;
  photograph.joint = std::string(address).substr(0, 3);
  photograph.positions = {4};
  job.photographs.push_back({{}, photograph});
  photograph.positions.clear();
  job.photographs.push_back({{}, photograph});  // of the joint, which may be there
  photograph.joint.clear();
  job.photographs.push_back({{}, photograph});  // of the machine
  photograph.joint = "J98";
  photograph.deviation = "never-out:J98";
  job.photographs.push_back({{}, photograph});  // of a deviation, which may have gone with it
  const auto survey = finding::survey(job);
  CHECK(survey.strays.size() == (std::string(address) == "J01/4" ? 8 : 9));
  for (const auto& stray : survey.strays) {
    CHECK(stray.joint == std::string(address).substr(0, 3));
    CHECK(stray.wrench.empty());
  }
}

TEST_CASE("a finding is graded by the teardown it belongs to", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01").out("J01/1");
  builder.found("J01/1", "79s 80o");
  const auto first_grade = [&] {
    return finding::survey(builder.job()).joints.front().at(1).findings.front().graded.grade;
  };
  const auto before = first_grade();
  builder.tightened("J01/1", 1, 80, 80);
  builder.out("J01/1", record::BreakLoose::Seized).last_removal().marked = false;
  CHECK(first_grade() == before);
  // Its own teardown does count: without a mark a test is no evidence.
  builder.found("J01/1", "79s 80o");
  const auto survey = finding::survey(builder.job());
  const auto& findings = survey.joints.front().at(1).findings;
  REQUIRE(findings.size() == 2);
  CHECK(findings[1].removal == survey.joints.front().at(1).removal);
  CHECK(findings[0].removal != findings[1].removal);
  CHECK(findings[1].graded.grade == finding::Grade::X);
}

TEST_CASE("a bolt may be tested before it is written down as out", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01").found("J01/1", "79s 80o");
  builder.out("J01/1");
  const auto removal_of_first = [&] {
    return finding::survey(builder.job()).joints.front().at(1).findings.front().removal;
  };
  CHECK(removal_of_first() == &builder.job().removals.front());
  builder.tightened("J01/1", 1, 80, 80).out("J01/1");
  CHECK(removal_of_first() == &builder.job().removals.front());
  // Tested in its hole after it went back: of no teardown, until it comes out again.
  auto in_place = JobBuilder().wrench().joint("J01").specified("J01").out("J01/1");
  in_place.tightened("J01/1", 1, 80, 80).found("J01/1", "79s 80o");
  CHECK(finding::survey(in_place.job()).joints.front().at(1).findings.front().removal == nullptr);
}

TEST_CASE("an older finding that is entered late does not pass for the latest", "[finding]") {
  auto builder = JobBuilder().wrench().joint("J01").specified("J01").out("J01/1");
  builder.found("J01/1", "69s 70o").found("J01/1", "79s 80o");
  auto job = builder.job();
  std::swap(job.findings[0], job.findings[1]);
  CHECK(finding::survey(job).joints.front().at(1).finding()->torque.best ==
        Torque::newton_metres(80));
}

}  // namespace survey_test
