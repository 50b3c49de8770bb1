// No sequence of ordinary lines leads to "finished" while a decision is not done, a stripe does not
// stand for the final value, or a hold point was shut at the time.

#include <algorithm>
#include <utility>

#include "audit/audit.h"
#include "plan/renewal_list.h"
#include "record/address.h"
#include "screen/status_answer.h"
#include "support/catch.h"
#include "support/job_builder.h"
#include "support/property.h"
#include "support/reassembled.h"

namespace finished_property_test {

namespace {

using record::Decision;
using record::HoldPointMove;
using record::PassKind;

constexpr int kPositions = 2;
constexpr double kTorque = 30.0;  // one pass by the default rule, and no check round for two

auto is(PassKind kind) {
  return [kind](const record::Tightening& work) { return work.target.kind == kind; };
}

// Lines about one joint of two bolts, entered a minute apart and some of them dated back, and what
// must be true of them before the job may be called finished: told from the lines alone, by no rule
// of the program.
class Lines {
 public:
  explicit Lines(bool has_hold_point) {
    job_ = JobBuilder().wrench().joint("J01", kPositions).specified("J01", "30 N·m").job();
    if (has_hold_point) put_up();
  }

  // The next line is dated back by some of the minutes since the first, at a second of its own.
  void date_back() {
    if (minutes_ > 0) minutes_back_ = *rc::gen::inRange(1, minutes_ + 1);
  }
  void put_up() {
    auto at = stamp();
    at.done_at = std::chrono::floor<std::chrono::minutes>(at.done_at);
    job_.hold_points.push_back({at, {"HV", "store discharged", std::nullopt, {"J01"}}});
  }
  void strike_wrench() { job_.wrenches.clear(); }
  void enter_wrench() {
    if (job_.wrenches.empty()) job_.wrenches = JobBuilder().wrench().job().wrenches;
  }

  void out(int position) {
    record::Removal removal;
    removal.joint = "J01";
    removal.positions = {position};
    job_.removals.push_back({stamp(), removal});
  }
  void work(int position, int pass, const record::PassTarget& target) {
    record::Tightening tightening;
    tightening.joint = "J01";
    tightening.positions = {position};
    tightening.pass = pass;
    tightening.target = target;
    if (target.kind == PassKind::Loosen) tightening.seen = "clean";
    if (target.torque) {
      tightening.wrench = "TW2";
      tightening.setting = kTorque;
    }
    job_.tightenings.push_back({stamp(), tightening});
  }
  void stripe(int position) {
    job_.stripes.push_back({stamp(), {"J01", {position}, true, std::nullopt}});
  }
  void look(int position, bool has_turned) {
    record::Recheck recheck{"J01", {position}, std::nullopt, std::nullopt};
    if (has_turned) recheck.turned = quantity::Angle::degrees(20);
    job_.rechecks.push_back({stamp(), recheck});
  }
  void arrival(int position) { job_.renewals.push_back({stamp(), {"J01", {position}}}); }
  void step(HoldPointMove move) {
    job_.hold_point_steps.push_back({stamp(), {"HV", move, "by the gauge"}});
  }
  // A repair that was decided, and the line that says that it was done.
  void repair(int position) {
    decide(position, Decision::Repair);
    decide(position, Decision::Repair, "thread cut anew");
  }
  void decide(int position, Decision decision, const std::string& done = "") {
    record::Disposition disposition;
    disposition.deviation = "found-low:J01/0" + std::to_string(position);
    disposition.rule = "found low";
    disposition.joint = "J01";
    disposition.position = position;
    disposition.evidence = "as it was";
    disposition.judged_on = "found 12 N·m";
    disposition.decision = decision;
    disposition.reason = "looked at";
    disposition.done = done;
    job_.dispositions.push_back({stamp(), disposition});
  }

  // One of the lines above that anybody might enter.
  void any() {
    const int position = *rc::gen::inRange(1, kPositions + 1);
    if (*rc::gen::inRange(0, 4) == 0) date_back();
    switch (*rc::gen::inRange(0, 15)) {
      case 0:
        return out(position);
      case 1:
      case 2:
        return work(position, *rc::gen::inRange(1, 4), torque());
      case 3:
        return work(position, 1, {PassKind::Loosen, std::nullopt, std::nullopt});
      case 4:
        return work(position, 2, {PassKind::Renew, std::nullopt, std::nullopt});
      case 5:
      case 6:
        return stripe(position);
      case 7:
        return look(position, true);
      case 8:
        return look(position, false);
      case 9:
        return arrival(position);
      case 10:
        return decide(position, *rc::gen::element(Decision::ReTorque, Decision::Renew,
                                                  Decision::Repair, Decision::UseAsIs));
      case 11:
        return repair(position);
      case 12:
        return *rc::gen::inRange(0, 2) == 0 ? strike_wrench() : enter_wrench();
      case 13:
        if (job_.hold_points.empty()) put_up();
        return;
      default:
        if (!job_.hold_points.empty()) {
          step(*rc::gen::element(HoldPointMove::Passed, HoldPointMove::Closed));
        }
    }
  }

  // What the plan leads to, from where the job stands, to the stripes.
  void as_planned() {
    minutes_back_ = 0;
    enter_wrench();
    if (!job_.hold_points.empty()) step(HoldPointMove::Passed);
    for (const auto& renewing : plan::renewal_list(job_, finding::survey(job_))) {
      if (!renewing.has_arrived) arrival(renewing.position);
    }
    for (int steps = 0; steps < 20; ++steps) {
      const progress::Reassembly now(job_, kDay);
      const auto* next = now.progress.next();
      if (next == nullptr) break;
      work(next->position, next->pass_number(), plan::target_of(next->planned().pass));
    }
    const progress::Reassembly now(job_, kDay);
    for (int position = 1; position <= kPositions; ++position) {
      if (now.progress.finish_of("J01", position).stripe == nullptr) stripe(position);
    }
  }

  [[nodiscard]] bool is_finished() const {
    const progress::Reassembly now(job_, kDay);
    const auto moment = job_start() + std::chrono::hours(10);
    const auto open = progress::open_list(now, moment);
    const auto audit = audit::run({now.job, now.survey, moment});
    return screen::JobStatus{now, open, audit}.is_finished();
  }

  // Empty where nothing speaks against it.
  [[nodiscard]] std::string what_forbids_it() const {
    for (int position = 1; position <= kPositions; ++position) {
      const auto since = latest(job_.removals, position);
      const auto turned = latest(
          job_.rechecks, position, [](const auto& look) { return look.turned.has_value(); }, since);
      const auto decided = latest_decision(position, Decision::ReTorque);
      const auto torque = latest(job_.tightenings, position, is_torque);
      if (torque < std::max({since, turned, decided, record::Moment{}})) return "no final value";
      if (torque == record::Moment{}) return "never tightened";
      const auto slackened = latest(job_.tightenings, position, is(PassKind::Loosen), turned);
      if (turned != record::Moment{} && slackened <= turned) return "not slackened after a turn";
      if (latest(job_.tightenings, position, lets_go) > torque) return "slackened since";
      const auto any_work = latest(job_.tightenings, position);
      if (latest(job_.stripes, position) < std::max(any_work, turned)) return "no stripe for it";
      const auto* repair = current_repair(position);
      if (repair != nullptr && repair->content.done.empty()) return "not repaired";
      if (repair != nullptr && torque < repair->stamp.done_at) return "repaired since";
      const auto renewed = latest_decision(position, Decision::Renew);
      if (renewed == record::Moment{}) continue;
      const bool is_in_place = latest(job_.tightenings, position, is(PassKind::Renew)) > renewed;
      const bool came_and_went_in =
          !job_.renewals.empty() && since != record::Moment{} && torque > renewed;
      if (!is_in_place && !came_and_went_in) return "decided new one not in";
    }
    for (const auto& entry : job_.tightenings) {
      if (may_be_shut(entry.stamp)) return "tightened behind a hold point";
      if (!entry.content.wrench.empty() && job_.wrenches.empty()) return "its wrench was struck";
    }
    for (const auto& entry : job_.removals) {
      if (may_be_shut(entry.stamp)) return "taken out behind a hold point";
    }
    return {};
  }

 private:
  static constexpr record::Day kDay{std::chrono::year{2026}, std::chrono::June,
                                    std::chrono::day{1}};

  static record::PassTarget torque() {
    return {PassKind::Torque, quantity::Torque::newton_metres(kTorque), std::nullopt};
  }
  static bool lets_go(const record::Tightening& work) {
    return work.target.kind == PassKind::Loosen || work.target.kind == PassKind::Renew;
  }
  static bool is_torque(const record::Tightening& work) {
    return work.target.kind == PassKind::Torque;
  }

  [[nodiscard]] record::Moment job_start() const { return job_.joints.front().stamp.done_at; }

  record::Stamp stamp() {
    ++minutes_;
    auto stamp = next_stamp(job_, job_start() + std::chrono::minutes(60 + minutes_));
    if (minutes_back_ > 0) {
      stamp.done_at -= std::chrono::minutes(std::exchange(minutes_back_, 0));
      stamp.done_at += std::chrono::milliseconds(100 * minutes_);
    }
    return stamp;
  }

  // When such a line about the position was last done, after `after`; the beginning of time where
  // there is none.
  template <class Entries, class Counts>
  static record::Moment latest(const Entries& entries, int position, Counts&& counts,
                               record::Moment after = {}) {
    record::Moment moment{};
    for (const auto& entry : entries) {
      const auto& positions = entry.content.positions;
      if (std::ranges::find(positions, position) == positions.end()) continue;
      if (!counts(entry.content) || entry.stamp.done_at < after) continue;
      moment = std::max(moment, entry.stamp.done_at);
    }
    return moment;
  }
  template <class Entries>
  static record::Moment latest(const Entries& entries, int position) {
    return latest(entries, position, [](const auto& /*any*/) { return true; });
  }

  // Of the decision that holds, which is the last; since the position last came out, but for a new
  // fastener, which stays decided.
  [[nodiscard]] record::Moment latest_decision(int position, Decision decision) const {
    record::Moment moment{};
    for (const auto& entry : job_.dispositions) {
      if (entry.content.position != position) continue;
      moment = entry.content.decision == decision ? entry.stamp.done_at : record::Moment{};
    }
    return moment;
  }

  // The decision that holds about the position, where it is to repair it.
  [[nodiscard]] const record::Entry<record::Disposition>* current_repair(int position) const {
    const record::Entry<record::Disposition>* last = nullptr;
    for (const auto& entry : job_.dispositions) {
      if (entry.content.position == position) last = &entry;
    }
    return last != nullptr && last->content.decision == Decision::Repair ? last : nullptr;
  }

  // The work of this line was done behind the hold point while it was shut, or nobody can tell: it
  // was written after a hold point that was put up without a time of its own, and dated before it.
  [[nodiscard]] bool may_be_shut(const record::Stamp& work) const {
    if (job_.hold_points.empty()) return false;
    const auto& put_up = job_.hold_points.front().stamp;
    if (work.done_at <= put_up.done_at) {
      return work.id > put_up.id && put_up.done_at == put_up.entered_at;
    }
    bool is_open = false;
    record::Moment last{};
    for (const auto& step : job_.hold_point_steps) {
      const auto at = step.stamp.done_at;
      if (at > work.done_at || at < put_up.done_at || at < last) continue;
      last = at;
      is_open = step.content.move == HoldPointMove::Passed;
    }
    return !is_open;
  }

  record::Job job_;
  int minutes_ = 0;
  int minutes_back_ = 0;  // of the next line
};

}  // namespace

TEST_CASE("no sequence of ordinary lines leads to finished too early", "[screen]") {
  int finished = 0;
  int forbidden = 0;
  holds_always("what is finished lacks nothing", [&] {
    Lines lines(*rc::gen::arbitrary<bool>());
    for (int round = 0; round < 2; ++round) {
      const int count = *rc::gen::inRange(0, 5);
      for (int i = 0; i < count; ++i) {
        lines.any();
        const auto forbids = lines.what_forbids_it();
        if (forbids.empty()) continue;
        ++forbidden;
        if (lines.is_finished()) RC_FAIL(forbids);
      }
      lines.as_planned();
      const auto forbids = lines.what_forbids_it();
      const bool is_finished = lines.is_finished();
      if (is_finished) ++finished;
      if (is_finished && !forbids.empty()) RC_FAIL(forbids);
    }
  });
  // The promise is about something: both come up often.
  CHECK(finished > 20);
  CHECK(forbidden > 100);
}

TEST_CASE("an empty logbook is not finished", "[screen]") {
  const progress::Reassembly now(record::Job{}, record::read_day("2026-06-01"));
  const audit::Audit audit;
  const std::vector<progress::OpenPoint> open;
  const screen::JobStatus status{now, open, audit};
  CHECK_FALSE(status.is_finished());
  CHECK_THAT(screen::status_text(status, true, {}), ContainsSubstring("nothing entered yet"));
}

}  // namespace finished_property_test
