#include "progress/decided_work.h"

#include "progress/plan_under_way.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace decided_work_test {

using record::Decision;

namespace {

// J01 of four, all out; two passes to 80 N·m.
JobBuilder apart() { return JobBuilder().wrench().joint("J01").specified("J01").out("J01/1-4"); }

// What is still to be done at which positions; "nothing" where all is.
std::string open(const record::Job& job) {
  const auto survey = finding::survey(job);
  const progress::PlanUnderWay now(job, survey, progress::joints_worked_on(job, survey),
                                   record::read_day("2026-06-02"));
  std::string text;
  for (const auto& each : progress::decided_work(job, survey, &now.progress)) {
    text += (text.empty() ? "" : "; ") + progress::in_words(each);
  }
  return text.empty() ? "nothing" : text;
}

// The whole plan of J01 carried out at these.
void tighten(JobBuilder& job, const std::string& address) {
  job.tightened(address, 1, 24, 24)
      .tightened(address, 2, 48, 48)
      .tightened(address, 3, 80, 80)
      .tightened(address, 4, 80, 80);
  job.last_tightening().target.kind = record::PassKind::Check;
}

}  // namespace

TEST_CASE("use as is asks for nothing", "[progress]") {
  CHECK(open(apart().decided("found-low:J01/02", "J01", 2, Decision::UseAsIs).job()) == "nothing");
}

TEST_CASE("re-torque is done when the final value was reached after the decision", "[progress]") {
  auto job = apart();
  job.decided("found-low:J01/02", "J01", 2, Decision::ReTorque);
  CHECK(open(job.job()) == "re-torque at 2, decided in line 5");
  job.tightened("J01/2", 1, 24, 24);
  CHECK(open(job.job()) == "re-torque at 2, decided in line 5");
  tighten(job, "J01/2");
  CHECK(open(job.job()) == "nothing");
  // What was reached before is not what was decided.
  job.decided("stripe-turned:J01/02", "J01", 2, Decision::ReTorque);
  CHECK(open(job.job()) == "re-torque at 2, decided in line 11");
}

TEST_CASE("renew is done when a new fastener went in after the decision", "[progress]") {
  auto job = apart();
  job.decided("found-high:J01", "J01", std::nullopt, Decision::Renew);
  CHECK(open(job.job()) == "renew at 1-4, decided in line 5");
  job.renewed("J01/1-3");
  CHECK(open(job.job()) == "renew at 1-4, decided in line 5");
  tighten(job, "J01/1-4");
  const std::string old_in = "renew at 4, decided in line 5; the old one is in at 4: ";
  CHECK_THAT(open(job.job()), Catch::Matchers::StartsWith(old_in));
  job.renewed("J01/4");
  CHECK_THAT(open(job.job()),
             Catch::Matchers::StartsWith(old_in) && ContainsSubstring("out J01/04"));
  job.out("J01/4").tightened("J01/4", 1, 24, 24);
  CHECK(open(job.job()) == "nothing");
}

TEST_CASE("repair and correct-record wait for the line that says what was done", "[progress]") {
  for (const auto decision : {Decision::Repair, Decision::CorrectRecord}) {
    auto job = apart();
    job.decided("damaged-thread:J01/03", "J01", 3, decision);
    tighten(job, "J01/1-4");
    CHECK(open(job.job()) == std::string(record::word_of(decision)) + " at 3, decided in line 5");
    job.decided("damaged-thread:J01/03", "J01", 3, decision, "thread insert fitted");
    CHECK(open(job.job()) == "nothing");
  }
}

}  // namespace decided_work_test
