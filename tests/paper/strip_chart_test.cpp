#include "paper/strip_chart.h"

#include "support/catch.h"
#include "support/job_builder.h"
#include "support/occurrences.h"

namespace strip_chart_test {

namespace {

std::string chart_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  paper::Markup page;
  paper::draw_strip_chart(page, survey.joints.front(), job.start);
  return page.take();
}

}  // namespace

TEST_CASE("the strip chart says in words and shapes what was found", "[paper]") {
  JobBuilder job;
  job.wrench().joint("J06", 4).specified("J06").out("J06/1-4");
  job.found("J06/1", "60s 70s 75s 80o").found("J06/2", "100o").found("J06/3", "60s 70s");
  const auto chart = chart_of(job.job());
  CHECK_THAT(chart, ContainsSubstring("in N·m, J06/01 to J06/03"));
  CHECK_THAT(chart, ContainsSubstring("torque at the fastener, N·m"));
  CHECK_THAT(chart, ContainsSubstring("line short") && ContainsSubstring("line aligned") &&
                        ContainsSubstring("line past") && ContainsSubstring("no move"));
  CHECK_THAT(chart, ContainsSubstring(">80.0 ±"));
  CHECK_THAT(chart, ContainsSubstring(">at or below 100, undecided</text>"));
  CHECK_THAT(chart, ContainsSubstring(">above 70, undecided</text>"));
  CHECK_THAT(chart, ContainsSubstring("tightened to 80 ±") && ContainsSubstring("grade "));
  // A band for each of the three rows and one in the legend; a bar for the bracket and one there.
  CHECK(occurrences(chart, "class=\"tolerance\"") == 4);
  CHECK(occurrences(chart, "class=\"bracket\"") == 2);
}

TEST_CASE("a finding without a specification has no band", "[paper]") {
  JobBuilder job;
  job.wrench().joint("J06", 2).out("J06/1-2").found("J06/1", "60s 70s 75s 80p");
  const auto chart = chart_of(job.job());
  CHECK(occurrences(chart, "class=\"tolerance\"") == 1);
  CHECK_THAT(chart, ContainsSubstring(", not specified</text>"));
}

TEST_CASE("nothing is drawn where nothing was tested, and a long joint in parts", "[paper]") {
  JobBuilder untested;
  untested.joint("J06", 4).specified("J06");
  CHECK(chart_of(untested.job()).empty());

  JobBuilder tested;
  tested.wrench().joint("J06", 60).specified("J06").out("J06/1-60");
  for (int position = 1; position <= 60; ++position) {
    tested.found("J06/" + std::to_string(position), "70s 75s 80o");
  }
  CHECK(occurrences(chart_of(tested.job()), "<title>Found torque") == 5);
}

}  // namespace strip_chart_test
