#include "paper/strip_chart.h"

#include "support/catch.h"
#include "support/job_builder.h"
#include "support/occurrences.h"

namespace strip_chart_test {

namespace {

std::string chart_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  paper::Markup page;
  paper::draw_strip_chart(page, survey.joints.front());
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
  CHECK_THAT(chart, ContainsSubstring(">80.0 ±"));
  CHECK_THAT(chart, ContainsSubstring(">at or below 100</div>"));
  CHECK_THAT(chart, ContainsSubstring(">above 70</div>"));
  CHECK(occurrences(chart, ">undecided</div>") == 3);
  CHECK_THAT(chart, ContainsSubstring("tightened to 80 ±") && ContainsSubstring("grade "));
  // A band for each of the three rows, a bar for the one bracket, and the limits in figures once.
  CHECK(occurrences(chart, "class=\"tolerance\"") == 3);
  CHECK(occurrences(chart, "class=\"bracket\"") == 1);
  CHECK(occurrences(chart, ">72</text>") == 1);
  CHECK(occurrences(chart, ">88</text>") == 1);
  CHECK(occurrences(chart, "class=\"frame\"") == 0);
}

TEST_CASE("what is outside is framed in the chart and in the table beside it", "[paper]") {
  JobBuilder job;
  job.wrench().joint("J06", 4).specified("J06").out("J06/1-4");
  job.found("J06/1", "70s 75s 78s 80o").found("J06/3", "46s 48s 50s 52o");
  const auto chart = chart_of(job.job());
  CHECK(occurrences(chart, "class=\"frame\"") == 1);
  CHECK(occurrences(chart, ">J06/</th>") == 1);
  CHECK(occurrences(chart, "<tr class=\"outside\"><th scope=\"row\">03</th>") == 1);
  CHECK(occurrences(chart, "<tr class=\"plain\"><th scope=\"row\">01</th>") == 1);
  CHECK_THAT(chart, ContainsSubstring(">low</div>") && ContainsSubstring("ratio 0.65"));
}

TEST_CASE("the legend stands once and has every shape that a chart may have", "[paper]") {
  paper::Markup page;
  paper::draw_chart_legend(page);
  const auto legend = page.take();
  CHECK_THAT(legend, ContainsSubstring("line short") && ContainsSubstring("line aligned") &&
                         ContainsSubstring("line past") && ContainsSubstring("no move"));
  for (const auto* shape : {"bracket", "best", "spread", "tolerance", "limit", "frame"}) {
    INFO(shape);
    CHECK(occurrences(legend, "class=\"" + std::string(shape) + "\"") > 0);
  }
}

TEST_CASE("a finding without a specification has no band", "[paper]") {
  JobBuilder job;
  job.wrench().joint("J06", 2).out("J06/1-2").found("J06/1", "60s 70s 75s 80p");
  const auto chart = chart_of(job.job());
  CHECK(occurrences(chart, "class=\"tolerance\"") == 0);
  CHECK_THAT(chart,
             ContainsSubstring(">not comparable</div>") && ContainsSubstring("grade A, no limits"));
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
