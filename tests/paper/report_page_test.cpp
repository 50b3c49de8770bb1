// What the report answers first.

#include "paper/report_page.h"

#include "support/catch.h"
#include "support/html_check.h"
#include "support/job_builder.h"
#include "support/report_text.h"

namespace report_page_test {

namespace {

std::string text_of(const record::Job& job) {
  const auto moment = record::read_moment("2026-06-02T08:00:00Z");
  const progress::Reassembly now(job, record::read_day("2026-06-02"));
  const auto audit = audit::run({now.job, now.survey, moment});
  return text_of_page(report_page({now, audit, {}}, {"GB-1", moment, 9}));
}

}  // namespace

TEST_CASE("the answer on page 1 names the points that are open, and how many more", "[paper]") {
  JobBuilder builder;
  builder.wrench().joint("J06").specified("J06").out("J06/1-4");
  builder.tightened("J06/1-4", 1, 56, 56).tightened("J06/1-4", 2, 80, 80);
  CHECK_THAT(text_of(builder.job()),
             ContainsSubstring("Not closed up: 2 points open. No hold is open.") &&
                 ContainsSubstring("Open: J06/1-4: pass 3 open") &&
                 ContainsSubstring("; J06: 4 of 4 final stripes missing."));
  for (const auto* code : {"J07", "J08", "J09"}) {
    builder.joint(code).specified(code).out(std::string(code) + "/1-4");
  }
  CHECK_THAT(text_of(builder.job()), ContainsSubstring("; and 8 more."));
}

TEST_CASE("what cannot be compared says so in the heading and in its row", "[paper]") {
  JobBuilder builder;
  builder.wrench().joint("J06", 2).out("J06/1-2").found("J06/1", "60s 70s 75s 80o");
  const auto text = text_of(builder.job());
  CHECK_THAT(text, ContainsSubstring("Found torque, J06: 1 not comparable") &&
                       ContainsSubstring("grade A, no limits"));
  CHECK(text.find("not specified") == std::string::npos);
}

}  // namespace report_page_test
