// The rules about reassembly: each fires on a minimal job and stays silent on its near miss. Of
// what is not recorded they say nothing.

#include <fmt/format.h>

#include <algorithm>

#include "audit/audit.h"
#include "audit/settlement.h"
#include "progress/reassembly.h"
#include "support/catch.h"
#include "support/job_builder.h"
#include "support/reassembled.h"

namespace reassembly_rules_test {

using audit::Level;
using record::BreakLoose;

namespace {

const record::Moment kNow = record::read_moment("2026-06-12T08:00:00Z");
const record::Moment kBack = record::read_moment("2026-06-10T08:00:00Z");

std::vector<audit::Deviation> deviations_of(const record::Job& job) {
  const auto survey = finding::survey(job);
  return audit::run({job, survey, kNow}).deviations;
}

std::string ids(const record::Job& job) {
  std::string all;
  for (const auto& deviation : deviations_of(job)) all += deviation.id + " ";
  return all;
}

audit::Deviation only(const record::Job& job) {
  INFO(ids(job));
  const auto deviations = deviations_of(job);
  REQUIRE(deviations.size() == 1);
  return deviations.front();
}

// J01, four at 80 N·m: 56 crosswise (1 3 2 4), 80 crosswise, a check round. All out on 1 June.
JobBuilder taken_apart() {
  return JobBuilder().wrench().joint("J01").specified("J01").out("J01/1-4");
}

record::Job back_together(const JobBuilder& builder) {
  auto job = builder.job();
  reassemble(job, kBack);
  return job;
}

// The line of this pass at this position, done once.
record::Entry<record::Tightening>& line_of(record::Job& job, int pass, int position,
                                           const std::string& joint = "J01") {
  const auto found = std::ranges::find_if(job.tightenings, [&](const auto& entry) {
    return entry.content.joint == joint && entry.content.pass == pass &&
           !entry.content.second_check && entry.content.positions.front() == position;
  });
  REQUIRE(found != job.tightenings.end());
  return *found;
}

void drop(record::Job& job, int pass, int position) {
  const auto* line = &line_of(job, pass, position);
  job.tightenings.erase(job.tightenings.begin() + (line - job.tightenings.data()));
}

void swap_times(record::Entry<record::Tightening>& a, record::Entry<record::Tightening>& b) {
  std::swap(a.stamp.done_at, b.stamp.done_at);
}

}  // namespace

TEST_CASE("nothing that was not begun is spoken of, and nothing in the middle of work", "[audit]") {
  CHECK(ids(taken_apart().job()).empty());
  for (const double share : {0.1, 0.4, 0.5, 0.7, 0.9}) {
    INFO(share);
    auto job = taken_apart().job();
    reassemble_in_part(job, kBack, share);
    CHECK(ids(job).empty());
  }
  CHECK(ids(back_together(taken_apart())).empty());
}

TEST_CASE("parts of a joint with passes of their own, and a final value that waits, are in order",
          "[audit]") {
  auto some = taken_apart();
  some.specified("J01", "40 N·m, 60 N·m, 70 N·m").last_specified().positions = {2, 3};
  auto waits = taken_apart();
  waits.last_joint().final_when = "the box is loaded";
  waits.joint("J02", 1).specified("J02").out("J02/1").last_joint().after = {"J01"};
  for (const auto* builder : {&some, &waits}) {
    CHECK(ids(back_together(*builder)).empty());
    for (const double share : {0.2, 0.5, 0.8}) {
      INFO(share);
      auto job = builder->job();
      reassemble_in_part(job, kBack, share);
      CHECK(ids(job).empty());
    }
  }
  auto job = back_together(some);
  swap_times(line_of(job, 2, 2), line_of(job, 3, 3));
  CHECK_THAT(ids(job), ContainsSubstring("pass-order:J01:pass-3-2-3"));
}

TEST_CASE("rule: pass skipped", "[audit]") {
  auto job = back_together(taken_apart());
  drop(job, 1, 3);
  const auto skipped = only(job);
  CHECK(skipped.id == "pass-skipped:J01:pass-1");
  CHECK(skipped.level == Level::Hold);
  CHECK_THAT(skipped.says, ContainsSubstring("missing at 3"));

  auto left_out = back_together(taken_apart());
  line_of(left_out, 2, 4).content.skipped_why = "the stud is bent";
  line_of(left_out, 2, 4).content.setting.reset();
  const auto found = deviations_of(left_out);
  REQUIRE_FALSE(found.empty());
  CHECK_THAT(ids(left_out), ContainsSubstring("pass-skipped:J01:left-out-2"));
  CHECK_THAT(found.back().says + found.front().says, ContainsSubstring("the stud is bent"));
}

TEST_CASE("rule: pass order", "[audit]") {
  auto job = back_together(taken_apart());
  swap_times(line_of(job, 1, 4), line_of(job, 2, 1));
  CHECK_THAT(ids(job), ContainsSubstring("pass-order:J01:pass-2"));
  // One that came out again by itself goes back by itself.
  auto again = back_together(taken_apart());
  record::Removal by_itself;
  by_itself.joint = "J01";
  by_itself.positions = {4};
  again.removals.push_back({next_stamp(again, kBack + std::chrono::hours(2)), by_itself});
  for (const int pass : {1, 2, 3}) {
    auto content = line_of(again, pass, 4).content;
    again.tightenings.push_back(
        {next_stamp(again, kBack + std::chrono::hours(2) + std::chrono::minutes(pass)), content});
  }
  again.stripes.push_back(
      {next_stamp(again, kBack + std::chrono::hours(3)), {"J01", {4}, true, {}}});
  CHECK(ids(again).empty());
}

TEST_CASE("rule: position order", "[audit]") {
  auto job = back_together(taken_apart());
  swap_times(line_of(job, 2, 1), line_of(job, 2, 3));
  const auto wrong = only(job);
  CHECK(wrong.id == "position-order:J01:pass-2");
  CHECK(wrong.level == Level::Check);
  // All in one line: no order is on record.
  auto at_once = taken_apart();
  at_once.tightened("J01/1-4", 1, 56, 56);
  CHECK(ids(at_once.job()).empty());
}

TEST_CASE("a deviation of order is cleared by doing what it advises", "[audit]") {
  const auto again = [](record::Job& job, int pass, const std::vector<int>& order, int minute) {
    for (const int position : order) {
      auto content = line_of(job, pass, position).content;
      job.tightenings.push_back(
          {next_stamp(job, kBack + std::chrono::hours(2) + std::chrono::minutes(minute++)),
           content});
    }
  };
  auto position_order = back_together(taken_apart());
  swap_times(line_of(position_order, 2, 1), line_of(position_order, 2, 3));
  auto wrongly = position_order;
  again(wrongly, 3, {4, 3, 2, 1}, 0);
  CHECK_THAT(ids(wrongly), ContainsSubstring("position-order:J01:pass-2"));
  auto in_part = position_order;
  again(in_part, 3, {1, 2}, 0);
  CHECK_THAT(ids(in_part), ContainsSubstring("position-order:J01:pass-2"));
  again(position_order, 3, {1, 2, 3, 4}, 0);
  CHECK(ids(position_order).empty());

  auto pass_order = back_together(taken_apart());
  swap_times(line_of(pass_order, 1, 4), line_of(pass_order, 2, 1));
  again(pass_order, 1, {1, 3, 2, 4}, 0);
  again(pass_order, 2, {1, 3, 2, 4}, 10);
  again(pass_order, 3, {1, 2, 3, 4}, 20);
  CHECK_THAT(ids(pass_order),
             !ContainsSubstring("pass-order") && !ContainsSubstring("position-order"));
}

TEST_CASE("rule: joint order", "[audit]") {
  const auto two = [](bool held_back) {
    auto job = taken_apart();
    job.joint("J02", 1).specified("J02").out("J02/1");
    if (held_back) job.last_joint().after = {"J01"};
    job.tightened("J02/1", 1, 56, 56);
    return job.job();
  };
  const auto early = only(two(true));
  CHECK(early.id == "joint-order:J02:J01");
  CHECK(early.level == Level::Check);
  CHECK(ids(two(false)).empty());

  const auto with_later_value = [](const std::string& final_when) {
    auto job = JobBuilder().wrench().joint("J01", 1).specified("J01").out("J01/1");
    job.last_joint().final_when = final_when;
    job.joint("J02", 1).specified("J02").out("J02/1");
    job.last_joint().covers = {"J01"};
    job.tightened("J02/1", 1, 56, 56);
    return job.job();
  };
  // The cover is on, and what lies under it cannot be reached.
  for (const std::string when : {"", "the box is loaded"}) {
    INFO(when);
    const auto covered = only(with_later_value(when));
    CHECK(covered.rule == "joint order");
    CHECK(covered.level == Level::Hold);
  }
  // What only comes after it waits for no more than its turn.
  auto after = taken_apart();
  after.last_joint().final_when = "the box is loaded";
  after.joint("J02", 1).specified("J02").out("J02/1").last_joint().after = {"J01"};
  CHECK(ids(after.tightened("J02/1", 1, 56, 56).job()).empty());
}

TEST_CASE("rule: no order", "[audit]") {
  auto job = taken_apart();
  job.last_joint().after = {"J02"};
  job.joint("J02").specified("J02").last_joint().after = {"J01"};
  const auto circle = only(job.job());
  CHECK(circle.id == "no-order");
  CHECK(circle.level == Level::Hold);
  CHECK_THAT(circle.says, ContainsSubstring("J01 after J02"));
}

TEST_CASE("rule: over-torqued", "[audit]") {
  auto job = taken_apart();
  job.tightened("J01/1-4", 1, 56, 56).tightened("J01/1", 2, 80, 89);
  const auto over = only(job.job());
  CHECK(over.id == "over-torqued:J01/01");
  CHECK(over.level == Level::Hold);
  CHECK_THAT(over.says, ContainsSubstring("89 N·m") && ContainsSubstring("88 N·m"));
  auto limit = taken_apart();
  limit.tightened("J01/1-4", 1, 56, 56).tightened("J01/1", 2, 80, 88);
  CHECK(ids(limit.job()) == "set-otherwise:J01:pass-2 ");
}

TEST_CASE("a provisional torque may be rounded to the wrench's graduation", "[audit]") {
  auto job = JobBuilder().wrench().joint("J01", 2).out("J01/1-2");
  job.found("J01/1", "29s 30o").found("J01/2", "30s 31o");  // 30.5 N·m stands in
  auto done = job.job();
  reassemble(done, kBack);
  CHECK(ids(done) == "no-specification:J01 ");
}

TEST_CASE("rule: under-torqued", "[audit]") {
  auto job = back_together(taken_apart());
  line_of(job, 3, 2).content.setting = 71;
  const auto under = only(job);
  CHECK(under.id == "under-torqued:J01/02");
  CHECK(under.level == Level::Hold);
  line_of(job, 3, 2).content.setting = 72;
  CHECK(ids(job) == "set-otherwise:J01:pass-3 ");  // at the least, and no more below it
}

TEST_CASE("rule: turn outside its window", "[audit]") {
  auto builder = JobBuilder().wrench().joint("J01", 1).out("J01/1");
  builder.specified("J01", "60 N·m, +60° (55-65)");
  auto job = back_together(builder);
  CHECK(ids(job).empty());
  line_of(job, 2, 1).content.turned = quantity::Angle::degrees(65);
  CHECK(ids(job).empty());
  line_of(job, 2, 1).content.turned = quantity::Angle::degrees(66);
  job.stripes.clear();
  const auto too_far = only(job);
  CHECK(too_far.id == "turn-outside-its-window:J01/01");
  CHECK(too_far.level == Level::Hold);
}

TEST_CASE("an angle turned a second time names who did each, where they are two", "[audit]") {
  auto builder = JobBuilder().wrench().joint("J01", 1).out("J01/1");
  builder.specified("J01", "60 N·m, +60° (55-65)");
  auto job = back_together(builder);
  job.stripes.clear();
  auto again = line_of(job, 2, 1);
  again.stamp = next_stamp(job, again.stamp.done_at);
  job.tightenings.push_back(again);
  const auto one = only(job);
  CHECK(one.id == "turn-outside-its-window:J01/01");
  CHECK_THAT(one.says, ContainsSubstring("on top of line") && !ContainsSubstring("by TS"));
  job.tightenings.back().stamp.by = "TS";
  const auto two = only(job);
  CHECK(two.level == Level::Hold);
  CHECK_THAT(two.says, ContainsSubstring(fmt::format("line {} (by TS)", again.stamp.line)) &&
                           ContainsSubstring(fmt::format("(by {})", again.stamp.by)));
}

TEST_CASE("rule: other target", "[audit]") {
  auto job = back_together(taken_apart());
  job.stripes.clear();
  auto changed = job.specifications.front().content;
  changed.procedure = record::read_specification("90 N·m");
  changed.typed = "90 N·m";
  job.specifications.front().content = changed;
  const auto other = only(job);
  CHECK(other.id == "other-target:J01");
  CHECK(other.level == Level::Hold);
}

TEST_CASE("rule: no final stripe", "[audit]") {
  auto job = back_together(taken_apart());
  job.stripes.back().content.positions = {1, 2, 4};
  const auto none = only(job);
  CHECK(none.id == "no-final-stripe:J01");
  CHECK(none.level == Level::Check);
  CHECK_THAT(none.says, ContainsSubstring("stripe at 3"));
  // A pass is still open somewhere: it is too soon to ask.
  auto open = back_together(taken_apart());
  open.stripes.clear();
  open.tightenings.pop_back();
  CHECK(ids(open).empty());
}

TEST_CASE("no joint is told as finished while a pass of it is open", "[audit]") {
  auto builder = taken_apart();
  builder.last_joint().critical = true;
  auto job = back_together(builder);
  job.stripes.clear();
  std::erase_if(job.tightenings, [](const auto& entry) {
    return entry.content.second_check ||
           (entry.content.pass == 1 && entry.content.positions.front() == 3);
  });
  const auto all = ids(job);
  CHECK_THAT(all, ContainsSubstring("pass-skipped:J01:pass-1"));
  CHECK_THAT(all, !ContainsSubstring("no-final-stripe") && !ContainsSubstring("second-person"));
}

TEST_CASE("how a critical joint was tightened is settled before the job is finished", "[audit]") {
  const auto in_other_order = [](bool critical) {
    auto builder = taken_apart();
    builder.last_joint().critical = critical;
    auto job = back_together(builder);
    swap_times(line_of(job, 1, 2), line_of(job, 2, 1));
    return deviations_of(job);
  };
  const auto is_order = [](const audit::Deviation& deviation) {
    return deviation.rule == "pass order" && deviation.level == Level::Check;
  };
  const auto plain = in_other_order(false);
  const auto critical = in_other_order(true);
  const auto of_plain = std::ranges::find_if(plain, is_order);
  const auto of_critical = std::ranges::find_if(critical, is_order);
  REQUIRE(of_plain != plain.end());
  REQUIRE(of_critical != critical.end());
  CHECK_FALSE(of_plain->is_to_settle());
  CHECK(of_critical->is_to_settle());
}

TEST_CASE("passes in the wrong order that were gone through anew are in order", "[audit]") {
  auto job = back_together(taken_apart());
  // The second pass was first, the first after it, and then all in order: nothing holds of it.
  auto early = job.tightenings;
  std::erase_if(early, [](const auto& entry) { return entry.content.pass != 2; });
  for (auto& entry : early) {
    entry.stamp.done_at -= std::chrono::hours(5);
    entry.stamp.id += "-early";
  }
  job.tightenings.insert(job.tightenings.begin(), early.begin(), early.end());
  CHECK(ids(job).empty());
}

TEST_CASE("rule: stripe too early", "[audit]") {
  auto job = back_together(taken_apart());
  job.stripes.back().stamp.done_at = line_of(job, 2, 1).stamp.done_at;
  const auto early = only(job);
  CHECK(early.id == "stripe-too-early:J01:worked-on");
  CHECK(early.level == Level::Check);
  auto unfinished = back_together(taken_apart());
  unfinished.tightenings.pop_back();
  CHECK(only(unfinished).id == "stripe-too-early:J01");
  // The check round once more moves nothing, and the stripe stands.
  auto checked_again = back_together(taken_apart());
  auto again = line_of(checked_again, 3, 1);
  again.stamp = next_stamp(checked_again, kBack + std::chrono::hours(2));
  checked_again.tightenings.push_back(again);
  CHECK(ids(checked_again).empty());
}

TEST_CASE("rule: two marks", "[audit]") {
  auto job = back_together(taken_apart());
  job.stripes.back().content.teardown_mark_wiped = false;
  const auto both = only(job);
  CHECK(both.id == "two-marks:J01");
  CHECK(both.level == Level::Check);
  CHECK_THAT(both.says, ContainsSubstring("at 1-4"));
  CHECK_THAT(both.what_to_do, ContainsSubstring("stripe J01/1-4 --wiped"));
  // The line that says that it was wiped clears it, as no teardown mark does that was never drawn.
  auto wiped = job;
  auto again = wiped.stripes.back().content;
  again.teardown_mark_wiped = true;
  wiped.stripes.push_back({next_stamp(wiped, kBack + std::chrono::hours(3)), again});
  CHECK(ids(wiped).empty());
  for (auto& removal : job.removals) removal.content.marked = false;
  CHECK(ids(job).empty());
}

TEST_CASE("what came out in the midst of its passes goes through them from the first", "[audit]") {
  auto job = back_together(taken_apart());
  record::Removal removal;
  removal.joint = "J01";
  removal.positions = {3};
  const auto between = line_of(job, 2, 3).stamp.done_at - std::chrono::seconds(10);
  job.removals.push_back({next_stamp(job, between), removal});
  // The old line of pass 1 is of the fastener before it came out.
  CHECK_THAT(ids(job), ContainsSubstring("pass-skipped:J01:pass-1") &&
                           ContainsSubstring("stripe-too-early:J01 "));
  const progress::Reassembly now(job, record::local_day(kNow));
  CHECK_FALSE(now.progress.has_final_value("J01", 3));
  CHECK(now.progress.has_final_value("J01", 1));
  CHECK(now.progress.next("J01")->pass_number() == 1);
  // Pass 1 alone does not mend it: what was set before it counts no more.
  auto first = line_of(job, 1, 3);
  first.stamp = next_stamp(job, kBack + std::chrono::hours(3));
  job.tightenings.push_back(first);
  const progress::Reassembly then(job, record::local_day(kNow));
  CHECK(then.progress.next("J01")->pass_number() == 2);
  CHECK_FALSE(then.progress.has_final_value("J01", 3));
  // Gone through again in order, nothing is left to say of the order in which it once was.
  auto alone = JobBuilder().wrench().joint("J01", 1).specified("J01").out("J01/1");
  alone.tightened("J01/1", 1, 56, 56);
  alone.out("J01/1").tightened("J01/1", 2, 80, 80);
  CHECK_THAT(ids(alone.job()), ContainsSubstring("pass-skipped:J01:pass-1"));
  alone.tightened("J01/1", 1, 56, 56).tightened("J01/1", 2, 80, 80).striped("J01/1");
  CHECK(ids(alone.job()).empty());
  // One that came out after its final stripe is torn down anew, with no word of that.
  auto later = back_together(taken_apart());
  later.removals.push_back({next_stamp(later, kBack + std::chrono::hours(3)), removal});
  CHECK_THAT(ids(later), !ContainsSubstring("pass-skipped"));
}

TEST_CASE("rule: second person", "[audit]") {
  auto critical = taken_apart();
  critical.last_joint().critical = true;
  CHECK(ids(back_together(critical)).empty());

  auto same = back_together(critical);
  same.tightenings.back().stamp.by = "kb";
  const auto hold = only(same);
  CHECK(hold.id == "second-person:J01:same");
  CHECK(hold.level == Level::Hold);

  auto unchecked = back_together(critical);
  unchecked.tightenings.pop_back();
  const auto check = only(unchecked);
  CHECK(check.id == "second-person:J01:none");
  CHECK(check.level == Level::Check);
}

TEST_CASE("rule: hold point", "[audit]") {
  const auto at = [](int minutes) {
    return record::read_moment("2026-05-01T08:00:00Z") + std::chrono::minutes(minutes);
  };
  const auto guarded = [&](std::optional<int> passed_after, std::vector<std::string> joints) {
    auto job = taken_apart().job();
    record::HoldPoint point{"HV", "store discharged", record::SpanOfTime{std::chrono::minutes(10)},
                            std::move(joints)};
    // Entered and worked on before the joint in time, with ids that rise as well.
    job.hold_points.push_back({next_stamp(job, at(0)), point});
    job.hold_point_steps.push_back(
        {next_stamp(job, at(1)), {"HV", record::HoldPointMove::Begun, ""}});
    if (passed_after) {
      job.hold_point_steps.push_back(
          {next_stamp(job, at(1 + *passed_after)), {"HV", record::HoldPointMove::Passed, "0 V"}});
    }
    return job;
  };
  const auto not_passed = only(guarded(std::nullopt, {}));
  CHECK(not_passed.id == "hold-point:J01:HV");
  CHECK(not_passed.level == Level::Hold);
  CHECK(only(guarded(9, {})).rule == "hold point");  // before its wait was over
  CHECK(ids(guarded(10, {})).empty());
  // It stands before another joint, which is not there yet.
  CHECK(ids(guarded(std::nullopt, {"J07"})) == "missing-joint:HV:J07 ");

  auto closed = guarded(10, {});
  closed.hold_point_steps.push_back({next_stamp(closed, kBack - std::chrono::hours(1)),
                                     {"HV", record::HoldPointMove::Closed, ""}});
  CHECK(ids(closed).empty());
  reassemble_in_part(closed, kBack, 0.1);
  CHECK(only(closed).rule == "hold point");
}

TEST_CASE("a hold point that was entered after the work says nothing of it", "[audit]") {
  auto job = taken_apart().job();
  job.hold_points.push_back({next_stamp(job, kBack), {"HV", "store discharged", {}, {}}});
  CHECK(ids(job).empty());
}

TEST_CASE("rule: found after tightening", "[audit]") {
  auto job = taken_apart();
  job.found("J01/1", "79s 80o 81p");
  auto done = back_together(job);
  CHECK(ids(done).empty());
  auto finished = done;
  finished.findings.back().stamp.done_at = kBack + std::chrono::hours(1);
  CHECK(only(finished).level == Level::Hold);  // the stripe stands for nothing
  CHECK_THAT(only(finished).what_to_do, ContainsSubstring("out J01/01"));  // it may be coming apart
  // Between its passes and the stripe.
  auto between = done;
  between.stripes.clear();
  between.findings.back().stamp.done_at = kBack + std::chrono::hours(1);
  const auto late = only(between);
  CHECK(late.id == "found-after-tightening:J01/01");
  CHECK(late.level == Level::Check);
  // Tightened and striped once more, it is good to know and no more.
  auto again = finished;
  const auto at = kBack + std::chrono::hours(2);
  for (const int pass : {1, 2, 3}) {
    const auto content = line_of(again, pass, 1).content;
    again.tightenings.push_back({next_stamp(again, at + std::chrono::minutes(pass)), content});
  }
  again.stripes.push_back({next_stamp(again, at + std::chrono::hours(1)), {"J01", {1}, true, {}}});
  CHECK(only(again).level == Level::Note);
  // Coming apart once more.
  auto out = finished;
  record::Removal removal;
  removal.joint = "J01";
  removal.positions = {1};
  out.removals.push_back({next_stamp(out, at), removal});
  CHECK_THAT(ids(out), !ContainsSubstring("found-after-tightening"));
}

TEST_CASE("rule: dated too early", "[audit]") {
  const auto done = back_together(taken_apart());
  auto early = done;
  const auto first = line_of(early, 1, 2).stamp;
  auto& second = line_of(early, 2, 2);
  second.stamp.done_at = first.done_at - std::chrono::minutes(1);
  const auto named = deviations_of(early);
  const auto found = std::ranges::find(named, "dated-too-early:J01/02", &audit::Deviation::id);
  REQUIRE(found != named.end());
  CHECK(found->level == Level::Check);
  CHECK_THAT(found->says, ContainsSubstring(fmt::format("line {} did pass 2", second.stamp.line)) &&
                              ContainsSubstring(fmt::format("before line {} (", first.line)));
  CHECK_THAT(found->what_to_do, ContainsSubstring("tighten J01/02 --pass 2 --at ... --replace " +
                                                  std::to_string(second.stamp.line)));
  CHECK_THAT(ids(early), !ContainsSubstring("pass-order"));
  // Done once more at its own time: the line is in nobody's way.
  auto again = early;
  const auto anew = line_of(again, 2, 2).content;
  again.tightenings.push_back({next_stamp(again, kBack + std::chrono::hours(20)), anew});
  CHECK_THAT(ids(again), !ContainsSubstring("dated-too-early"));
  // Written in the order done, it was slackened since.
  auto slackened = done;
  const auto pass = line_of(slackened, 1, 2).content;
  slackened.tightenings.push_back({next_stamp(slackened, kBack + std::chrono::hours(20)), pass});
  CHECK_THAT(ids(slackened), !ContainsSubstring("dated-too-early"));
}

TEST_CASE("a look is no line to follow for work that was written down after it", "[audit]") {
  const auto done = back_together(taken_apart());
  auto looked = done;
  const auto work = looked.tightenings;
  record::Recheck turned;
  turned.joint = "J01";
  turned.positions = {1};
  turned.turned = quantity::Angle::degrees(5);
  auto stamp = next_stamp(looked, kBack + std::chrono::days(1));
  stamp.id = looked.removals.back().stamp.id + "a";  // entered before all of the work
  looked.rechecks.push_back({stamp, turned});
  CHECK_THAT(ids(looked), !ContainsSubstring("dated-too-early"));
  // What is written after it of a day before is no work that it asks for.
  looked.rechecks.back().stamp = next_stamp(looked, kBack + std::chrono::days(1));
  auto late = next_stamp(looked, kBack + std::chrono::hours(23));
  late.id = looked.rechecks.back().stamp.id + "a";
  looked.tightenings.push_back({late, line_of(looked, 1, 1).content});
  CHECK_THAT(ids(looked), ContainsSubstring("dated-too-early:J01/01"));
}

TEST_CASE("rule: tightened before out", "[audit]") {
  const auto done = back_together(taken_apart());
  auto early = done;
  auto& line = line_of(early, 1, 2);
  line.stamp.done_at = early.removals.front().stamp.done_at - std::chrono::minutes(1);
  const auto named = deviations_of(early);
  const auto found = std::ranges::find(named, "tightened-before-out:J01/02", &audit::Deviation::id);
  REQUIRE(found != named.end());
  CHECK(found->level == Level::Check);
  CHECK_THAT(found->what_to_do, ContainsSubstring("tighten J01/02 --pass 1 --at ... --replace"));
  // Done a minute after it came out, it counts.
  line.stamp.done_at = early.removals.front().stamp.done_at + std::chrono::minutes(1);
  CHECK_THAT(ids(early), !ContainsSubstring("tightened-before-out"));
  // Written before it came out, it is of the joint as it was then.
  auto earlier = done;
  auto first = line_of(earlier, 1, 2);
  first.stamp = earlier.removals.front().stamp;
  first.stamp.done_at -= std::chrono::minutes(1);
  first.stamp.id = earlier.joints.front().stamp.id;
  earlier.tightenings.push_back(first);
  CHECK(ids(earlier).empty());
}

TEST_CASE("rule: closed over", "[audit]") {
  auto job = back_together(taken_apart());
  const auto opened = job.removals.front().stamp.done_at + std::chrono::hours(1);
  job.items.push_back({next_stamp(job, opened), {"C1", "clips", 4, "J01"}});
  auto in_time = job;
  in_time.item_returns.push_back({next_stamp(job, kBack - std::chrono::hours(1)), {"C1", 4}});
  CHECK(ids(in_time).empty());
  job.item_returns.push_back({next_stamp(job, kBack + std::chrono::hours(5)), {"C1", 4}});
  const auto late = only(job);
  CHECK(late.id == "closed-over:J01:C1");
  CHECK(late.level == Level::Hold);
  // What comes off when the joint has been closed was never in its way.
  auto after = back_together(taken_apart());
  after.items.push_back(
      {next_stamp(after, kBack + std::chrono::hours(4)), {"C1", "clips", 4, "J01"}});
  after.item_returns.push_back({next_stamp(after, kBack + std::chrono::hours(5)), {"C1", 4}});
  CHECK(ids(after).empty());
}

TEST_CASE("rule: under cover", "[audit]") {
  auto builder = taken_apart();
  builder.joint("J02", 2).specified("J02").out("J02/1-2").last_joint().covers = {"J01"};
  auto job = back_together(builder);
  CHECK(ids(job).empty());
  const auto remove = [&job](const std::string& joint, std::vector<int> positions,
                             std::chrono::hours later) {
    record::Removal removal;
    removal.joint = joint;
    removal.positions = std::move(positions);
    job.removals.push_back({next_stamp(job, kBack + later), removal});
  };
  remove("J01", {3}, std::chrono::hours(5));
  CHECK_THAT(ids(job), ContainsSubstring("under-cover:J01:J02"));
  // A cover with one bolt in it is on.
  remove("J02", {1}, std::chrono::hours(4));
  CHECK_THAT(ids(job), ContainsSubstring("under-cover:J01:J02"));
  remove("J02", {2}, std::chrono::hours(4));
  CHECK_THAT(ids(job), !ContainsSubstring("under-cover"));
}

TEST_CASE("rule: never out", "[audit]") {
  auto job = back_together(taken_apart());
  job.removals.clear();
  const auto never = only(job);
  CHECK(never.id == "never-out:J01");
  CHECK(never.level == Level::Check);
  // A joint that the plan has while others go back, and of which nothing is recorded, is told as a
  // note; the decision that it stays takes it out of the plan.
  auto beside = taken_apart();
  beside.joint("J02", 2).specified("J02");
  auto other = beside.job();
  std::erase_if(other.joints, [](const auto& entry) { return entry.content.code == "J02"; });
  std::erase_if(other.specifications,
                [](const auto& entry) { return entry.content.joint == "J02"; });
  reassemble(other, kBack);
  other.joints = beside.job().joints;
  other.specifications = beside.job().specifications;
  const auto untouched = only(other);
  CHECK(untouched.id == "never-out:J02");
  CHECK(untouched.level == Level::Note);
  auto stays = audit::disposition_about(untouched, untouched.id);
  stays.decision = record::Decision::UseAsIs;
  stays.reason = "not opened";
  other.dispositions.push_back({next_stamp(other, kNow - std::chrono::hours(1)), stays});
  const progress::Reassembly decided(other, record::local_day(kNow));
  CHECK(decided.progress.next() == nullptr);
  CHECK(only(other).settled != nullptr);
  // Neither begun nor tested alone.
  job.tightenings.clear();
  job.stripes.clear();
  CHECK(ids(job).empty());
  auto tested = JobBuilder().wrench().joint("J01").specified("J01");
  CHECK(ids(tested.found("J01/1", "79s 80o 81p").job()).empty());
}

TEST_CASE("rule: not renewed", "[audit]") {
  auto job = JobBuilder().wrench().joint("J01", 2).specified("J01").out("J01/1");
  job.out("J01/2", BreakLoose::Sheared);
  CHECK(ids(job.job()) == "break-loose:J01/02 ");
  auto done = back_together(job);
  CHECK_THAT(ids(done), ContainsSubstring("not-renewed:J01/02"));
  auto in_time = done;
  in_time.renewals.push_back({next_stamp(done, kBack - std::chrono::hours(1)), {"j01", {2}}});
  CHECK(ids(in_time) == "break-loose:J01/02 ");
  // One that arrived after the work is not what was tightened.
  done.renewals.push_back({next_stamp(done, kBack + std::chrono::hours(1)), {"j01", {2}}});
  CHECK_THAT(ids(done), ContainsSubstring("not-renewed:J01/02"));
}

TEST_CASE("rule: not back", "[audit]") {
  auto job = back_together(taken_apart());
  std::erase_if(job.tightenings,
                [](const auto& entry) { return entry.content.positions.front() == 4; });
  CHECK_THAT(ids(job), ContainsSubstring("not-back:J01 "));
  // Before there is a stripe, it is work in hand.
  job.stripes.clear();
  CHECK_THAT(ids(job), !ContainsSubstring("not-back"));
}

TEST_CASE("rule: renewed in place", "[audit]") {
  auto never_out = taken_apart().joint("J02").specified("J02").renewed("J02/2,3");
  CHECK(ids(never_out.job()).empty());  // they lie ready
  // They came after the old ones had been tightened, and lie ready as well.
  CHECK(ids(taken_apart()
                .joint("J02")
                .specified("J02")
                .tightened("J02/2", 1, 56, 56)
                .renewed("J02/2")
                .job()) == "never-out:J02 ");
  never_out.tightened("J02/2", 1, 56, 56);
  const auto deviation = only(never_out.job());
  CHECK(deviation.id == "renewed-in-place:J02");
  CHECK(deviation.level == Level::Check);
  CHECK_THAT(deviation.says, ContainsSubstring("for 2 and"));
  CHECK(ids(taken_apart().renewed("J01/2,3").tightened("J01/2", 1, 56, 56).job()).empty());
}

TEST_CASE("rule: item count", "[audit]") {
  const auto with_clips = [](int back, bool closed) {
    auto job = closed ? back_together(taken_apart()) : taken_apart().job();
    job.items.push_back({next_stamp(job, kBack), {"C1", "clips", 6, "J01"}});
    if (back > 0) job.item_returns.push_back({next_stamp(job, kBack), {"C1", back}});
    return job;
  };
  const auto missing = only(with_clips(4, true));
  CHECK(missing.id == "item-count:J01:C1");
  CHECK(missing.level == Level::Hold);
  CHECK_THAT(missing.says, ContainsSubstring("6 clips") && ContainsSubstring("4 went back"));
  CHECK(only(with_clips(7, false)).level == Level::Check);  // more than came off
  CHECK(ids(with_clips(6, true)).empty());
  CHECK(ids(with_clips(4, false)).empty());  // nothing is closed yet
}

TEST_CASE("rule: re-check overdue", "[audit]") {
  const auto with_interval = [](const char* interval) {
    auto builder = taken_apart();
    builder.last_joint().rechecks = {record::read_recheck_interval(interval)};
    return back_together(builder);
  };
  const auto overdue = only(with_interval("24 h"));  // looked at two days after
  CHECK(overdue.id == "re-check-overdue:J01:1-4:1-day");
  CHECK(overdue.level == Level::Check);
  CHECK(ids(with_interval("3 days")).empty());
  auto looked = with_interval("24 h");
  looked.rechecks.push_back(
      {next_stamp(looked, kNow - std::chrono::hours(2)), {"J01", {1, 2, 3, 4}, {}, {}}});
  CHECK(ids(looked).empty());
}

TEST_CASE("rule: stripe turned", "[audit]") {
  auto job = back_together(taken_apart());
  job.rechecks.push_back({next_stamp(job, kNow - std::chrono::hours(2)),
                          {"J01", {2}, quantity::Angle::degrees(15.0), {}}});
  const auto turned = only(job);
  CHECK(turned.id == "stripe-turned:J01/02");
  CHECK(turned.level == Level::Hold);
  CHECK_THAT(turned.says, ContainsSubstring("15°"));
  // A new stripe alone does not mend it.
  job.stripes.push_back({next_stamp(job, kNow - std::chrono::hours(1)), {"J01", {2}, true, {}}});
  CHECK(only(job).id == "stripe-turned:J01/02");
}

TEST_CASE("a wrong turn is not made right by turning further", "[audit]") {
  const auto by_angle = [](bool one_time) {
    auto job = JobBuilder().wrench().joint("J01", 2).specified("J01", "60 N·m, +60° (55-65)");
    job.last_joint().one_time = one_time;
    job.out("J01/1-2").renewed("J01/1-2");
    return back_together(job);
  };
  const auto turned = [](record::Job job, std::initializer_list<double> degrees) {
    job.stripes.clear();
    auto& last = line_of(job, 2, 1);
    for (const double angle : degrees) {
      auto again = last;
      again.stamp = next_stamp(job, kBack + std::chrono::hours(job.tightenings.size()));
      again.content.turned = quantity::Angle::degrees(angle);
      job.tightenings.push_back(again);
    }
    return job;
  };
  const auto restarted = [&](record::Job job, double degrees) {
    auto first = line_of(job, 1, 1);
    first.stamp = next_stamp(job, kBack + std::chrono::hours(50));
    job.tightenings.push_back(first);
    auto second = line_of(job, 2, 1);
    second.stamp = next_stamp(job, kBack + std::chrono::hours(51));
    second.content.turned = quantity::Angle::degrees(degrees);
    job.tightenings.push_back(second);
    return job;
  };
  CHECK_THAT(ids(turned(by_angle(false), {40})), ContainsSubstring("turn-outside-its-window"));
  CHECK_THAT(ids(turned(by_angle(false), {40, 60})), ContainsSubstring("turn-outside-its-window"));
  CHECK_THAT(ids(restarted(turned(by_angle(false), {40}), 60)),
             !ContainsSubstring("turn-outside-its-window"));
  // A one-time fastener that was turned too far is spent, however often it is started again.
  CHECK_THAT(ids(restarted(turned(by_angle(true), {120}), 60)),
             ContainsSubstring("turn-outside-its-window"));
  // So is one that is tightened again after it had its turn, short as that was.
  CHECK_THAT(ids(restarted(turned(by_angle(true), {40}), 60)),
             ContainsSubstring("turn-outside-its-window"));
  // Turned twice, each time as far as asked, it has twice the turn until it is started again.
  CHECK_THAT(ids(turned(by_angle(false), {60})), ContainsSubstring("turn-outside-its-window"));
  CHECK_THAT(ids(restarted(turned(by_angle(false), {60}), 60)),
             !ContainsSubstring("turn-outside-its-window"));
}

TEST_CASE("rule: set otherwise", "[audit]") {
  auto job = back_together(taken_apart());
  const auto asked = *line_of(job, 1, 3).content.setting;
  line_of(job, 1, 3).content.setting = asked * 1.06;
  const auto other = only(job);
  CHECK(other.id == "set-otherwise:J01:pass-1");
  CHECK(other.level == Level::Check);
  CHECK(other.positions == std::vector{3});
  CHECK_THAT(other.says, ContainsSubstring("asks for 56"));
  line_of(job, 1, 3).content.setting = asked * 1.04;
  CHECK(ids(job).empty());
}

TEST_CASE("rule: done by two", "[audit]") {
  auto job = back_together(taken_apart());
  auto again = line_of(job, 1, 3);
  again.stamp = next_stamp(job, again.stamp.done_at);
  again.stamp.by = line_of(job, 1, 3).stamp.by;
  job.tightenings.push_back(again);
  CHECK(ids(job).empty());
  job.tightenings.back().stamp.by = "TS";
  const auto twice = only(job);
  CHECK(twice.id == "done-by-two:J01:pass-1");
  CHECK(twice.level == Level::Note);
  CHECK(twice.positions == std::vector{3});
  CHECK_THAT(twice.says, ContainsSubstring("once more by TS"));
  // Each pair of lines by itself.
  again = line_of(job, 1, 4);
  again.stamp = next_stamp(job, again.stamp.done_at);
  again.stamp.by = "TS";
  job.tightenings.push_back(again);
  const auto both = only(job);
  CHECK(both.positions == std::vector{3, 4});
  CHECK_THAT(both.says,
             ContainsSubstring(fmt::format("TS (line {}); at 4", again.stamp.line - 1)) &&
                 ContainsSubstring(fmt::format("TS (line {})", again.stamp.line)));
}

TEST_CASE("a final stripe that two people drew is done by two, one that was drawn anew is not",
          "[audit]") {
  auto job = back_together(taken_apart());
  REQUIRE_FALSE(job.stripes.empty());
  auto again = job.stripes.front();
  again.stamp = next_stamp(job, again.stamp.done_at + std::chrono::minutes(5));
  job.stripes.push_back(again);
  CHECK(ids(job).empty());
  job.stripes.back().stamp.by = "TS";
  const auto twice = only(job);
  CHECK(twice.id == "done-by-two:J01:stripe");
  CHECK(twice.positions == again.content.positions);
  CHECK_THAT(twice.says, ContainsSubstring("the final stripe was drawn at") &&
                             ContainsSubstring("once more by TS"));
}

TEST_CASE("a second person's check ends with the next tightening", "[audit]") {
  auto critical = taken_apart();
  critical.last_joint().critical = true;
  auto job = back_together(critical);
  CHECK(ids(job).empty());
  auto again = line_of(job, 2, 1);
  again.stamp = next_stamp(job, kBack + std::chrono::hours(2));
  job.tightenings.push_back(again);
  CHECK_THAT(ids(job), ContainsSubstring("second-person:J01:none"));
  // Another spelling is no other person.
  auto same = back_together(critical);
  for (auto& entry : same.tightenings) entry.stamp.by = "A. Kay";
  same.tightenings.back().stamp.by = "a.  kay";
  CHECK_THAT(ids(same), ContainsSubstring("second-person:J01:same"));
}

}  // namespace reassembly_rules_test
