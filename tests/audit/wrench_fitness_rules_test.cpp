#include "audit/audit.h"
#include "support/catch.h"
#include "support/job_builder.h"
#include "support/reassembled.h"

namespace wrench_fitness_rules_test {

using audit::Level;

namespace {

// After the calibration that some of these jobs enter.
const record::Moment kNow = record::read_moment("2026-09-02T08:00:00Z");
const record::Moment kBack = record::read_moment("2026-06-10T08:00:00Z");

std::vector<audit::Deviation> deviations_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, kNow}).deviations;
}

audit::Deviation only(const record::Job& job) {
  const auto deviations = deviations_of(job);
  std::string all;
  for (const auto& deviation : deviations) all += deviation.id + "; ";
  INFO(all);
  REQUIRE(deviations.size() == 1);
  return deviations.front();
}

// One joint of two on TW2, tested at 1 and back together.
record::Job finished() {
  auto job = JobBuilder().wrench().joint("J01", 2).specified("J01").out("J01/1-2").found(
      "J01/1", "79s 80o 81p");
  auto done = job.job();
  reassemble(done, kBack);
  return done;
}

void calibrate(record::Job& job, const std::string& day, std::optional<double> found_off) {
  auto wrench = job.wrenches.front().content;
  wrench.calibrated = record::read_day(day);
  wrench.found_off.reset();
  if (found_off) wrench.found_off = quantity::Percent::of_hundred(*found_off);
  job.wrenches.push_back({next_stamp(job, kNow), wrench});
}

}  // namespace

TEST_CASE("a joint that went back together by the plan has no deviation", "[audit]") {
  CHECK(deviations_of(finished()).empty());
}

TEST_CASE("rule: wrench found off", "[audit]") {
  auto job = finished();
  calibrate(job, "2026-08-01", 7.0);
  const auto off = only(job);
  CHECK(off.id == "wrench-found-off:J01:TW2:2026-08-01");
  CHECK(off.level == Level::Hold);
  CHECK_THAT(off.says, ContainsSubstring("7%") && ContainsSubstring("tested 1") &&
                           ContainsSubstring("tightened 1-2"));
}

TEST_CASE("rule: wrench found off asks less where it only tested", "[audit]") {
  auto job = finished();
  job.tightenings.clear();
  job.stripes.clear();
  calibrate(job, "2026-08-01", 7.0);
  CHECK(only(job).level == Level::Check);
}

TEST_CASE("rule: wrench found off is silent within tolerance and after a good calibration",
          "[audit]") {
  auto within = finished();
  calibrate(within, "2026-08-01", 4.0);
  CHECK(deviations_of(within).empty());
  auto untold = finished();
  calibrate(untold, "2026-08-01", std::nullopt);
  CHECK(deviations_of(untold).empty());
  // A good one stands between the work and the bad one.
  auto after_good = finished();
  calibrate(after_good, "2026-07-01", std::nullopt);
  calibrate(after_good, "2026-08-01", 7.0);
  CHECK(deviations_of(after_good).empty());
}

TEST_CASE("rule: wrench found off on the day of the work", "[audit]") {
  auto job = finished();  // on 10 June
  job.findings.clear();
  auto wrench = job.wrenches.front().content;
  wrench.calibrated = record::read_day("2026-06-10");
  wrench.found_off = quantity::Percent::of_hundred(7.0);
  auto before = job;
  before.wrenches.push_back({next_stamp(job, kBack - std::chrono::minutes(5)), wrench});
  CHECK(deviations_of(before).empty());
  auto after = job;
  after.wrenches.push_back({next_stamp(job, kBack + std::chrono::hours(3)), wrench});
  CHECK(only(after).id == "wrench-found-off:J01:TW2:2026-06-10");
  // Of one that was entered on a later day nobody knows whether it came before or after.
  auto unknown = job;
  unknown.wrenches.push_back({next_stamp(job, kNow), wrench});
  CHECK(only(unknown).id == "wrench-found-off:J01:TW2:2026-06-10");
}

TEST_CASE("rule: no wrench", "[audit]") {
  auto job = JobBuilder().wrench("TW2", "20..60 N·m").joint("J01", 2).specified("J01");
  CHECK(deviations_of(job.job()).empty());  // nothing is out
  job.out("J01/1-2");
  const auto none = only(job.job());
  CHECK(none.id == "no-wrench:J01");
  CHECK(none.level == Level::Check);
  CHECK_THAT(none.says, ContainsSubstring("80 N·m"));
  // Every torque that none covers is named.
  auto two = JobBuilder().wrench("TW2", "20..60 N·m").joint("J01", 2);
  two.specified("J01", "70 N·m, 80 N·m").out("J01/1-2");
  CHECK_THAT(only(two.job()).says,
             ContainsSubstring("can do 70 N·m") && ContainsSubstring("can do 80 N·m"));
  // In range but out of calibration is a matter of the day: sequence says it.
  CHECK(deviations_of(JobBuilder()
                          .wrench("TW2", "20..200 N·m", "1 N·m", "2020-01-01")
                          .joint("J01", 2)
                          .specified("J01")
                          .out("J01/1-2")
                          .job())
            .empty());
}

TEST_CASE("rule: coarse wrench", "[audit]") {
  // By hand: 4 % of 95 N·m and half a graduation are 4.3 N·m, more than two thirds of 2 N·m and of
  // 6 N·m, and less than two thirds of 9.5 N·m.
  const auto at = [](const std::string& asked) {
    return JobBuilder().wrench().joint("J01", 2).specified("J01", asked).out("J01/1-2").job();
  };
  const auto coarse = only(at("95 ±2 N·m"));
  CHECK(coarse.id == "coarse-wrench:J01");
  CHECK(coarse.level == Level::Check);
  CHECK_THAT(coarse.says, ContainsSubstring("TW2 may be off by 4.3") &&
                              ContainsSubstring("more than two thirds"));
  CHECK(only(at("95 ±6 N·m")).id == "coarse-wrench:J01");
  CHECK(deviations_of(at("95 N·m ±10%")).empty());
  // A finer one at hand does it.
  auto two = JobBuilder().wrench().wrench("TW1", "40..110 N·m", "0.5 N·m");
  two.last_wrench().accuracy = quantity::Percent::of_hundred(1.0);
  two.joint("J01", 2).specified("J01", "95 ±2 N·m").out("J01/1-2");
  CHECK(deviations_of(two.job()).empty());
}

TEST_CASE("rule: coarse wrench looks at the wrench that was used", "[audit]") {
  // As above: ±4 % of 95 N·m on TW2, and ±1 % on TW1.
  auto builder = JobBuilder().wrench().wrench("TW1", "40..110 N·m", "0.5 N·m");
  builder.last_wrench().accuracy = quantity::Percent::of_hundred(1.0);
  builder.joint("J01", 2).specified("J01", "95 ±2 N·m").out("J01/1-2");
  auto job = builder.job();
  reassemble(job, kBack);
  CHECK(deviations_of(job).empty());
  for (auto& entry : job.tightenings) entry.content.wrench = "TW2";
  const auto coarse = only(job);
  CHECK(coarse.id == "coarse-wrench:J01");
  CHECK(coarse.level == Level::Check);
  CHECK_THAT(coarse.says, ContainsSubstring("TW2 may be off by 4.3"));
  CHECK_THAT(coarse.what_to_do, ContainsSubstring("check what it tightened"));
  // What was decided of the best wrench there is stands once that has tightened it.
  auto only_one = JobBuilder().wrench().joint("J01", 2).specified("J01", "95 ±2 N·m");
  auto apart = only_one.out("J01/1-2").job();
  const auto before = only(apart).parts.front().evidence;
  reassemble(apart, kBack);
  CHECK(only(apart).parts.front().evidence == before);
}

TEST_CASE("a deviation that is stated wide excuses no calibration that found it off", "[audit]") {
  const auto calibrated = [](std::optional<double> stated, std::optional<double> stated_before,
                             double found_off) {
    auto job = finished();
    if (stated_before) {
      job.wrenches.front().content.accuracy = quantity::Percent::of_hundred(*stated_before);
    }
    calibrate(job, "2026-08-01", found_off);
    if (stated) job.wrenches.back().content.accuracy = quantity::Percent::of_hundred(*stated);
    std::string ids;
    for (const auto& deviation : deviations_of(job)) ids += deviation.id + ' ';
    return ids;
  };
  constexpr const char* kOff = "wrench-found-off:J01:TW2:2026-08-01";
  CHECK_THAT(calibrated(10.0, std::nullopt, 7.0), ContainsSubstring(kOff));
  CHECK_THAT(calibrated(10.0, 10.0, 7.0), ContainsSubstring(kOff));
  // What was allowed for until then counts, whatever the new certificate states.
  CHECK_THAT(calibrated(4.0, 1.0, 3.0), ContainsSubstring(kOff));
  CHECK_THAT(calibrated(4.0, 4.0, 3.0), !ContainsSubstring(kOff));
}

TEST_CASE("rule: tightened out of range", "[audit]") {
  auto job = finished();
  record::Wrench wide;
  wide.name = "TW4";
  wide.scale = record::read_scale("0..400 N·m");
  wide.graduation = 2;
  wide.calibrated = record::read_day("2026-03-02");
  job.wrenches.push_back({next_stamp(job, kNow), wide});
  job.tightenings.back().content.wrench = "TW4";
  CHECK(deviations_of(job).empty());  // 80 N·m is the least of its range
  auto& entry = job.tightenings.back().content;
  entry.setting = 79;
  const auto outside = only(job);
  CHECK(outside.id == "tightened-out-of-range:J01:TW4");
  CHECK(outside.level == Level::Check);
}

TEST_CASE("rule: tightening scale", "[audit]") {
  auto job = finished();
  job.findings.clear();
  auto& scale = job.wrenches.front().content.scale;
  scale = record::read_scale("20..80 N·m");
  CHECK(deviations_of(job).empty());  // 80 N·m is the last mark
  scale = record::read_scale("20..79 N·m");
  const auto beyond = only(job);
  CHECK(beyond.id == "tightening-scale:J01:TW2");
  CHECK(beyond.level == Level::Hold);
  CHECK(beyond.positions == std::vector{1, 2});
  scale = record::read_scale("20..200 ft·lbf");
  const auto other = only(job);
  CHECK(other.id == "tightening-scale:J01:TW2");
  CHECK_THAT(other.says, ContainsSubstring("80 N·m, which is not on it"));
}

TEST_CASE("rule: tightened out of calibration", "[audit]") {
  auto job = finished();
  job.findings.clear();
  job.wrenches.front().content.calibrated = record::read_day("2025-06-09");
  const auto expired = only(job);
  CHECK(expired.id == "tightened-out-of-calibration:J01:TW2");
  CHECK(expired.level == Level::Hold);
  // A calibration that follows tells whether the values stand.
  auto good = job;
  calibrate(good, "2026-08-01", std::nullopt);
  CHECK(deviations_of(good).empty());
  auto off = job;
  calibrate(off, "2026-08-01", 7.0);
  CHECK(only(off).rule == "wrench found off");
  auto unknown = job;
  unknown.wrenches.front().content.calibrated.reset();
  CHECK(only(unknown).id == "tightened-out-of-calibration:J01:TW2");
  CHECK(only(unknown).level == Level::Check);
  job.wrenches.front().content.calibrated = record::read_day("2025-06-10");
  CHECK(deviations_of(job).empty());
}

}  // namespace wrench_fitness_rules_test
