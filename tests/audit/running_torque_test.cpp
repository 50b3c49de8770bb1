// What it takes to run a self-locking fastener down comes on top of its specification (FAA AC
// 43.13-1B, 7-40, seen): by the plan and by the audit alike, before it turned, while it is being
// renewed, and after.

#include "audit/audit.h"
#include "progress/reassembly.h"
#include "progress/tightening_remarks.h"
#include "support/catch.h"
#include "support/job_builder.h"

namespace running_torque_test {

namespace {

const record::Moment kNow = record::read_moment("2026-06-12T08:00:00Z");

constexpr double kRunning = 6.0;  // of both old nuts; on top of 30 N·m ±10 %: 33 to 39 N·m

std::string ids(const JobBuilder& job) {
  const auto survey = finding::survey(job.job());
  std::string all;
  for (const auto& deviation : audit::run({job.job(), survey, kNow}).deviations) {
    all += deviation.id + " ";
  }
  return all;
}

// One round by the default rule, tightened at the plan's 36 N·m and striped.
JobBuilder finished() {
  auto job = JobBuilder().wrench().joint("J01", 2).specified("J01", "30 N·m");
  for (const auto* where : {"J01/1", "J01/2"}) {
    job.found(where, "34s 36o 38p");
    job.last_finding().prevailing =
        quantity::StatedTorque{kRunning, quantity::TorqueUnit::NewtonMetre};
  }
  return job.out("J01/1-2").tightened("J01/1-2", 1, 36, 36).striped("J01/1-2");
}

JobBuilder turned() { return finished().rechecked("J01/1", 20.0); }

// Slackened, looked at and renewed, before any torque.
JobBuilder renewed() {
  auto job = turned().renewed("J01/1").slackened("J01/1");
  job.tightened("J01/1", 2, 0, 0);
  auto& fitted = job.last_tightening();
  fitted.target = {record::PassKind::Renew, std::nullopt, std::nullopt};
  fitted.wrench.clear();
  fitted.setting.reset();
  return job;
}

}  // namespace

TEST_CASE("the setting that the plan gave stays right when the stripe is found turned", "[audit]") {
  CHECK_THAT(ids(finished()), !ContainsSubstring("torqued") && !ContainsSubstring("target"));
  const auto alarm = ids(turned());
  CHECK_THAT(alarm, ContainsSubstring("stripe-turned:J01/01"));
  CHECK_THAT(alarm, !ContainsSubstring("other-target") && !ContainsSubstring("over-torqued"));
}

TEST_CASE("a new self-locking fastener is set with a running torque that the plan leaves open",
          "[audit]") {
  const progress::Reassembly now(renewed().job(), record::local_day(kNow));
  const auto* step = now.progress.next("J01");
  REQUIRE(step != nullptr);
  CHECK_THAT(step->planned().pass.aim->torque.in_newton_metres(), WithinAbs(30.0, 1e-9));
  CHECK_THAT(step->planned().pass.aim->may_run->in_newton_metres(), WithinAbs(kRunning, 1e-9));
  CHECK_THAT(step->planned().pass.says, ContainsSubstring("on top what it takes to run it down"));

  const auto set_to = [&](double setting) {
    return ids(renewed().tightened("J01/1", 3, 30, setting).striped("J01/1"));
  };
  for (const double right : {30.0, 34.0, 36.0, 39.0}) {
    INFO(right);
    CHECK_THAT(set_to(right), !ContainsSubstring("torqued") && !ContainsSubstring("target") &&
                                  !ContainsSubstring("turned"));
  }
  CHECK_THAT(set_to(40.0), ContainsSubstring("over-torqued:J01/01"));
  CHECK_THAT(set_to(26.0), ContainsSubstring("under-torqued:J01/01"));
}

TEST_CASE("adding the running torque of a new fastener draws no remark", "[audit]") {
  const auto remarks = [](double setting) {
    auto job = renewed();
    const progress::Reassembly now(job.job(), record::local_day(kNow));
    job.tightened("J01/1", 3, 30, setting);
    std::string all;
    for (const auto& remark : progress::remarks_on(job.last_tightening(), now, kNow)) all += remark;
    return all;
  };
  CHECK(remarks(30).empty());
  CHECK(remarks(35).empty());
  CHECK_THAT(remarks(37), ContainsSubstring("30 N·m here and its running torque, not 37 N·m"));
  CHECK_THAT(remarks(28), ContainsSubstring("30 N·m here and its running torque, not 28 N·m"));
}

TEST_CASE("a test whose running torque is entered late leaves the work of that day its pass",
          "[audit]") {
  auto job = JobBuilder().wrench().joint("J01", 1).specified("J01", "30 N·m");
  job.found("J01/1", "34s 36o 38p");
  auto late = job.out("J01/1").tightened("J01/1", 1, 30, 34).striped("J01/1");
  late.last_finding().prevailing =
      quantity::StatedTorque{kRunning, quantity::TorqueUnit::NewtonMetre};
  CHECK_THAT(ids(late), !ContainsSubstring("other-target"));
  // It is judged by what it takes: 33 N·m at least.
  late.last_tightening().setting = 30.0;
  CHECK_THAT(ids(late), ContainsSubstring("under-torqued:J01/01"));
}

TEST_CASE("a new self-locking fastener without its running torque is named", "[audit]") {
  const auto set_to = [&](double setting) {
    return ids(renewed().tightened("J01/1", 3, 30, setting).striped("J01/1"));
  };
  CHECK_THAT(set_to(30.0), ContainsSubstring("running-torque-left-out:J01"));
  CHECK_THAT(set_to(34.0), !ContainsSubstring("running-torque-left-out"));
  // With what was read of its siblings on top it was set as the sheet asks.
  for (const double right : {34.0, 36.0}) {
    CHECK_THAT(set_to(right), !ContainsSubstring("set-otherwise"));
  }
  CHECK_THAT(ids(finished()), !ContainsSubstring("running-torque-left-out"));
}

}  // namespace running_torque_test
