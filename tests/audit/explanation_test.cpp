#include "audit/explanation.h"

#include "audit/audit.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace explanation_test {

using audit::Weight;
using record::BreakLoose;

namespace {

// The causes of the first deviation of this rule.
std::vector<audit::Cause> causes_of(const JobBuilder& builder, const std::string& rule) {
  const auto survey = finding::survey(builder.job());
  const auto result =
      audit::run({builder.job(), survey, record::read_moment("2026-06-02T08:00:00Z")});
  for (const auto& deviation : result.deviations) {
    if (deviation.rule == rule) return deviation.causes;
  }
  FAIL("no deviation of the rule " + rule);
  return {};
}

std::string text_of(const std::vector<audit::Cause>& causes) {
  std::string text;
  for (const auto& cause : causes) {
    text +=
        std::string(audit::word_of(cause.weight)) + ": " + cause.says + " (" + cause.fact + ")\n";
  }
  return text;
}

JobBuilder five_at_80() {
  JobBuilder job;
  job.wrench().joint("J01", 6).specified("J01").out("J01/1-5");
  for (int position = 1; position <= 5; ++position) {
    job.found("J01/" + std::to_string(position), "79s 80o 81p");
  }
  return job;
}

}  // namespace

TEST_CASE("one among siblings that are within is told from a whole joint", "[audit]") {
  auto job = five_at_80().out("J01/6");
  job.found("J01/6", "48s 49o 50p");
  const auto causes = causes_of(job, "found low");
  REQUIRE_FALSE(causes.empty());
  CHECK(causes[0].weight == Weight::Likely);
  CHECK(causes[0].says == "this fastener alone has lost tension, or was never brought to it");
  CHECK(causes[0].fact == "siblings J01/1-5 are within; this one is 0.61 of the joint's median");
}

TEST_CASE("a whole joint that is low is explained as one", "[audit]") {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01").out("J01/1-4");
  job.last_joint().holds = "cover with paper gasket";
  for (const auto* address : {"J01/1", "J01/2", "J01/3"}) job.found(address, "49s 50o 51p");
  CHECK(text_of(causes_of(job, "found low"))
            .starts_with("likely: the whole joint has settled, its gasket relaxed"));
  CHECK(text_of(causes_of(job, "whole joint off"))
            .starts_with("likely: the gasket has relaxed (it holds \"cover with paper gasket\")"));
}

TEST_CASE("the feel at breaking loose explains a torque that is high", "[audit]") {
  auto job = five_at_80().out("J01/6", BreakLoose::Seized);
  job.found("J01/6", "107s 108o 109p");
  const auto text = text_of(causes_of(job, "found high"));
  CHECK(text.starts_with("likely: rust, paint or adhesive held it"));
  CHECK_THAT(text, ContainsSubstring("it broke loose seized"));
  CHECK_THAT(text, ContainsSubstring("units were confused"));  // 1.35
}

TEST_CASE("one that was loose before it was touched has worked loose", "[audit]") {
  auto job = five_at_80().out("J01/6", BreakLoose::AlreadyLoose);
  job.found("J01/6", "48s 49o 50p");
  CHECK(text_of(causes_of(job, "found low"))
            .starts_with("likely: it has worked loose (it was loose before it was touched)"));
}

TEST_CASE("a wrench that reads all joints off by one ratio is named", "[audit]") {
  const auto job = [](const std::string& second) {
    JobBuilder builder;
    builder.wrench().joint("J01").specified("J01").out("J01/1-4").joint("J02").specified("J02");
    builder.out("J02/1-4").found("J01/1", "61s 62o 63p").found("J01/2", "61s 62o 63p");
    builder.found("J02/1", second);
    return text_of(causes_of(builder, "found low"));
  };
  CHECK_THAT(job("61s 62o 63p"),
             ContainsSubstring("the wrench reads wrong (all 3 findings of TW2 in 2 "
                               "joints are about 0.78 times the specification)"));
  CHECK_THAT(job("79s 80o 81p"), !ContainsSubstring("all 3 findings"));
}

TEST_CASE("where the logbook says nothing no cause is made up", "[audit]") {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01").out("J01/1-4").found("J01/1", "48s 49o 50p");
  CHECK(text_of(causes_of(job, "found low")).empty());
}

TEST_CASE("an undecided finding is explained by what made it so", "[audit]") {
  JobBuilder job;
  job.wrench().joint("J01").specified("J01").out("J01/1-4").found("J01/1", "60s 75o");
  CHECK_THAT(
      text_of(causes_of(job, "found undecided")),
      ContainsSubstring("the steps near the mark were too wide to tell (the bracket is ±10 % "
                        "wide)"));
}

TEST_CASE("siblings with another specification are no ground to call one apart", "[audit]") {
  // Four at 80, one specified to 20 and found at 20, one specified to 20 and found low at 15.
  auto job = JobBuilder().wrench("TW2", "5..200 N·m").joint("J01", 6).specified("J01");
  job.out("J01/1-6").specified("J01", "20 N·m").last_specified().positions = {5, 6};
  for (int position = 1; position <= 4; ++position) {
    job.found("J01/" + std::to_string(position), "79s 80o 81p");
  }
  job.found("J01/5", "19s 20o 21p").found("J01/6", "14s 15o 16p");
  CHECK_THAT(text_of(causes_of(job, "found low")),
             ContainsSubstring("by its share of what it is specified to, this one is 0.75 of"));
}

TEST_CASE("a cause rests on the teardown of the finding and not on a later one", "[audit]") {
  auto job = five_at_80().out("J01/6").found("J01/6", "48s 49o 50p");
  job.out("J01/6", BreakLoose::AlreadyLoose);
  CHECK_THAT(text_of(causes_of(job, "found low")), !ContainsSubstring("worked loose"));
}

TEST_CASE("a wrench that was found off later is the first cause", "[audit]") {
  auto job = five_at_80().out("J01/6").found("J01/6", "48s 49o 50p");
  job.wrench("TW2", "20..200 N·m", "1 N·m", "2026-06-02").last_wrench().found_off =
      quantity::Percent::of_hundred(18.0);
  const auto causes = causes_of(job, "found low");
  CHECK(causes[0].says == "the wrench read wrong");
  CHECK_THAT(causes[0].fact, ContainsSubstring("2026-06-02 found TW2 off by 18"));
}

TEST_CASE("one bolt near the ratio of two units is first of all one bolt", "[audit]") {
  auto job = five_at_80().out("J01/6").found("J01/6", "58s 59o 60p");  // 0.738 of 80
  CHECK_THAT(text_of(causes_of(job, "found low")),
             Catch::Matchers::StartsWith("likely: this fastener alone") &&
                 ContainsSubstring("possible: units were confused"));
}

TEST_CASE("two that are low are not called one alone", "[audit]") {
  auto job = five_at_80().out("J01/6").found("J01/6", "48s 49o 50p");
  job.found("J01/5", "48s 49o 50p");
  CHECK_THAT(text_of(causes_of(job, "found low")),
             ContainsSubstring("this fastener, like 1 more,"));
}

}  // namespace explanation_test
