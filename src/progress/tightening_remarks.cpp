#include "progress/tightening_remarks.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "finding/unit_slip.h"
#include "plan/renewal_list.h"
#include "progress/cover_times.h"
#include "progress/decided_work.h"
#include "progress/done_already.h"
#include "progress/item_count.h"
#include "progress/torque_limit.h"
#include "progress/unfinished_before.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace progress {
namespace {

using Stands = Step::Stands;

// A setting may differ from the plan's by less than half a graduation through rounding alone; a
// torque set on another wrench by a percent.
constexpr double kSameSetting = 0.01;

// Greater than every id, as that of a line that is not written yet.
constexpr std::string_view kAboveAllIds = "ffffffff-ffff-7fff-bfff-ffffffffffff";

class Remarks {
 public:
  Remarks(const record::Tightening& tightening, const Reassembly& before, record::Moment done_at)
      : tightening_(tightening),
        before_(before.progress),
        job_(before.job),
        survey_(before.survey),
        done_at_(done_at),
        day_(record::local_day(done_at)) {
    for (const int position : tightening.positions) {
      if (const auto* step = before_.step(tightening.joint, tightening.pass, position)) {
        steps_.push_back(step);
      }
    }
  }

  std::vector<std::string> all() && {
    if (steps_.empty()) return {};
    if (tightening_.second_check) {
      under_cover();
      return std::move(says_);
    }
    order_of_joints();
    order_of_passes();
    order_of_positions();
    done_already();
    if (record::is_skipped(tightening_)) return std::move(says_);
    under_cover();
    items_not_back();
    not_renewed();
    not_repaired();
    before_it_came_out();
    before_what_it_follows();
    counts_for_nothing();
    undoes_later();
    not_told();
    wrench();
    setting();
    spent();
    turn();
    return std::move(says_);
  }

 private:
  void say(std::string text) { says_.push_back(std::move(text)); }

  [[nodiscard]] const plan::PlannedJoint& planned_joint() const { return *steps_.front()->joint; }

  void order_of_joints() {
    for (const auto& unmet : unfinished_before(before_, *planned_joint().state->joint)) {
      say(in_words(unmet));
    }
    for (const auto& unmarked : unmarked_before(before_, survey_, *planned_joint().state->joint)) {
      say(in_words(unmarked));
    }
  }

  void under_cover() {
    const CoverTimes covers(job_, survey_, plan::Decided(job_, survey_));
    for (const auto& on : covers.over(tightening_.joint, done_at_)) {
      say(in_words(on, tightening_.joint));
    }
  }

  void order_of_passes() {
    std::vector<int> open;
    int pass = 0;
    for (const auto& step : before_.steps()) {
      if (step.joint != &planned_joint() || step.pass >= steps_.front()->pass) continue;
      if (step.stands != Stands::Open) continue;
      if (pass == 0) pass = step.pass_number();
      if (step.pass_number() == pass) open.push_back(step.position);
    }
    if (open.empty()) return;
    std::ranges::sort(open);
    say(fmt::format("pass {} is still open at {}", pass,
                    record::write_address(tightening_.joint, open)));
  }

  // The positions taken together have to be the next of their pass; one by one in its order where
  // they were named so.
  void order_of_positions() {
    std::vector<int> expected;
    std::vector<int> still_open;
    for (const auto* step : steps_) {
      if (step->stands == Stands::Open) still_open.push_back(step->position);
    }
    for (const int position : steps_.front()->planned().order) {
      if (expected.size() == still_open.size()) break;
      const auto* step = before_.step(tightening_.joint, tightening_.pass, position);
      if (step != nullptr && step->stands == Stands::Open) expected.push_back(position);
    }
    const bool is_next = tightening_.in_order ? std::ranges::equal(expected, still_open)
                                              : std::ranges::is_permutation(expected, still_open);
    if (is_next) return;
    say(fmt::format("the order of pass {} asks for {} next", tightening_.pass,
                    fmt::join(expected, ", ")));
  }

  void done_already() {
    DoneAlready again;
    for (const auto* step : steps_) {
      if (step->stands == Stands::Done) again.add(step->entry->stamp, step->position);
    }
    for (const auto& where : again.in_words(tightening_.joint)) {
      say(fmt::format("pass {} was done at {}{}", tightening_.pass, where,
                      record::is_skipped(tightening_) ? ", and stands as done" : ""));
    }
  }

  void items_not_back() {
    for (const auto& item : item_counts(job_)) {
      const int missing = item.missing_at(done_at_);
      if (missing <= 0 || !record::same_code(item.item->before, tightening_.joint)) continue;
      say(fmt::format("{} of {} {} ({}) are not back, and {} closes over them", missing, item.off,
                      item.item->what, item.item->code, tightening_.joint));
    }
  }

  void not_renewed() {
    std::vector<int> not_here;
    std::vector<int> old_in;
    const auto kind = tightening_.target.kind;
    const bool takes_out = kind == record::PassKind::Loosen || kind == record::PassKind::Renew;
    for (const auto& renewing : plan::renewal_list(job_, survey_)) {
      const bool is_meant = renewing.joint == planned_joint().state && renewing.is_certain() &&
                            !is_before_new_one(renewing.position) &&
                            std::ranges::find(tightening_.positions, renewing.position) !=
                                tightening_.positions.end();
      if (is_meant && !renewing.has_arrived) not_here.push_back(renewing.position);
      if (is_meant && !takes_out && renewing.has_arrived && renewing.old_went_back != nullptr) {
        old_in.push_back(renewing.position);
      }
    }
    if (!not_here.empty()) {
      say(fmt::format("no new fasteners have arrived for {}",
                      record::write_address(tightening_.joint, not_here)));
    }
    if (!old_in.empty()) {
      say(fmt::format("the old fasteners went back in at {} before the new ones had arrived",
                      record::write_address(tightening_.joint, old_in)));
    }
  }

  // The passes before "new bolts" are those of the old ones.
  [[nodiscard]] bool is_before_new_one(int position) const {
    return std::ranges::any_of(before_.steps_of(tightening_.joint, position),
                               [&](const Step* step) {
                                 return step->planned().pass.kind == record::PassKind::Renew &&
                                        step->pass_number() > tightening_.pass;
                               });
  }

  // What was decided to be repaired has to be before it is tightened.
  void not_repaired() {
    for (const auto& work : decided_work(job_, survey_, &before_)) {
      const auto& [stamp, decided] = *work.decision;
      if (decided.decision != record::Decision::Repair) continue;
      if (!record::same_code(decided.joint, tightening_.joint)) continue;
      if (!work.open.empty() &&
          std::ranges::find_first_of(work.open, tightening_.positions) == work.open.end()) {
        continue;
      }
      say(fmt::format("{}, and nothing says that it was done: settle {} --done \"what was done\"",
                      in_words(work), decided.deviation));
    }
  }

  // It is of the joint as it was; of what is put back it counts for nothing.
  void before_it_came_out() {
    std::vector<int> positions;
    const record::Stamp* first = nullptr;
    for (const int position : tightening_.positions) {
      const auto* came_out = before_.came_out(tightening_.joint, position);
      if (came_out == nullptr || came_out->done_at <= done_at_) continue;
      positions.push_back(position);
      if (first == nullptr || record::is_earlier(*came_out, *first)) first = came_out;
    }
    if (positions.empty()) return;
    std::ranges::sort(positions);
    say(
        fmt::format("{} came out on {} (line {}), after this: it counts for nothing of what has "
                    "gone back since",
                    record::write_address(tightening_.joint, positions),
                    record::write_local(first->done_at), first->line));
  }

  // Counted as it is going to be written: behind all that is there.
  void before_what_it_follows() {
    const auto is_before_other = [&](const Step* step) {
      const auto* last = before_.last_counted(tightening_.joint, step->position);
      return last != nullptr && last->done_at > done_at_;
    };
    if (std::ranges::none_of(steps_, is_before_other)) return;
    record::Entry<record::Tightening> line{
        {std::string(kAboveAllIds), 0, {}, done_at_, done_at_, {}}, tightening_};
    Progress with_it = before_;
    with_it.count(line);
    std::vector<int> positions;
    const record::Stamp* first = nullptr;
    for (const auto* step : steps_) {
      for (const auto& early : with_it.dated_too_early(tightening_.joint, step->position)) {
        if (early.work != &line) continue;
        positions.push_back(step->position);
        if (first == nullptr || record::is_earlier(*early.follows, *first)) first = early.follows;
      }
    }
    if (positions.empty()) return;
    std::ranges::sort(positions);
    say(
        fmt::format("line {} of {} is later than this, and pass {} has to be done after it at {}: "
                    "this counts for nothing; where its time is wrong, give its own with --at and "
                    "--replace",
                    first->line, record::write_local(first->done_at), tightening_.pass,
                    record::write_address(tightening_.joint, positions)));
  }

  [[nodiscard]] bool is_before_out(int position) const {
    const auto* came_out = before_.came_out(tightening_.joint, position);
    return came_out != nullptr && came_out->done_at > done_at_;
  }

  // Sent back to an earlier pass, what is done behind that is on top of what counts no more.
  void counts_for_nothing() {
    std::vector<int> positions;
    int from = 0;
    for (const auto* step : steps_) {
      const auto again = before_.starts_again_at(tightening_.joint, step->position);
      if (!again || step->pass_number() <= *again || is_before_out(step->position)) continue;
      positions.push_back(step->position);
      if (from == 0) from = *again;
    }
    if (positions.empty()) return;
    std::ranges::sort(positions);
    const auto where = record::write_address(tightening_.joint, positions);
    say(
        fmt::format("this counts for nothing at {} before pass {} is done there: tighten {} --pass "
                    "{}",
                    where, from, where, from));
  }

  // A wrench does nothing to what holds more already: either it was slackened, or the lines stand
  // in another order than the work.
  void undoes_later() {
    std::vector<int> positions;
    const Step* undone = nullptr;
    for (const auto* step : steps_) {
      const auto* behind = before_.undone_by(tightening_, step->position);
      if (behind == nullptr || behind->entry->stamp.done_at > done_at_) continue;
      positions.push_back(step->position);
      if (undone == nullptr) undone = behind;
    }
    if (undone == nullptr) return;
    std::ranges::sort(positions);
    say(
        fmt::format("pass {} was done before this at {} (line {}) and is open again: it stands at "
                    "what was set last; where this was done before that, give its time with --at "
                    "and --replace",
                    undone->pass_number(), record::write_address(tightening_.joint, positions),
                    undone->entry->stamp.line));
  }

  void not_told() {
    if (!steps_.front()->planned().pass.asks_for_look || !tightening_.seen.empty()) return;
    say("nothing tells what was seen of thread, face and seat (--seen), and no new stripe is drawn "
        "before that");
  }

  void wrench() {
    if (tightening_.wrench.empty()) return;
    const auto* used = record::wrench_on(job_, tightening_.wrench, day_);
    if (used == nullptr) return;
    if (tightening_.setting && !record::in_range(*used, {*tightening_.setting, tightening_.unit})) {
      say(fmt::format("{} is not to be used at {} {}: its usable range is {} to {}", used->name,
                      quantity::write_exact(*tightening_.setting),
                      quantity::name_of(tightening_.unit),
                      quantity::write_rounded(record::least_setting(*used)),
                      quantity::write_rounded(used->scale.high)));
    }
    const auto calibration = record::calibration_on(*used, day_);
    if (calibration == record::Calibration::Expired) {
      say(fmt::format("the calibration of {} has run out", used->name));
    } else if (calibration == record::Calibration::NotYet) {
      say(fmt::format("{} was calibrated after this day", used->name));
    } else if (!used->calibrated && !is_used_here()) {
      say(
          fmt::format("no calibration of {} is on record, and nobody can tell what it sets; enter "
                      "it where it has one: wrench {} --calibrated DAY",
                      used->name, used->name));
    }
    if (const auto& planned = steps_.front()->planned().setting;
        planned && planned->wrench->name != used->name) {
      say(fmt::format("the plan has {} for this, not {}", planned->wrench->name, used->name));
    }
  }

  // Said once a joint; nobody reads it at every bolt.
  [[nodiscard]] bool is_used_here() const {
    return std::ranges::any_of(job_.tightenings, [&](const auto& entry) {
      const auto& other = entry.content;
      if (!record::same_code(other.joint, tightening_.joint)) return false;
      if (!record::same_code(other.wrench, tightening_.wrench)) return false;
      const auto* came_out = before_.came_out(other.joint, other.positions.front());
      return came_out == nullptr || record::is_later(entry.stamp, *came_out);
    });
  }

  // ", is that ft·lbf?": what was set is in another unit what is asked for.
  [[nodiscard]] std::string slip_text(quantity::Torque applied, quantity::Torque wanted) const {
    const auto slip = finding::unit_slip(applied / wanted, finding::kCloseToSlip);
    if (!slip) return {};
    return fmt::format("; the ratio is that of {} taken as {}: look which scale was read",
                       slip->meant, slip->taken);
  }

  void setting() {
    const auto applied = record::applied_torque(tightening_);
    const auto& aim = steps_.front()->planned().pass.aim;
    if (!applied || !aim) return;
    const auto in_unit = [&](quantity::Torque torque) {
      return quantity::write_rounded(torque, tightening_.unit);
    };
    const auto most = torque_limit(before_.steps_of(tightening_.joint, steps_.front()->position));
    if (most && *applied > *most) {
      say(
          fmt::format("over-torque: {} where the final value is {} at most; slacken it, look at "
                      "fastener and thread, and start it again from pass 1{}",
                      in_unit(*applied), in_unit(*most), slip_text(*applied, aim->torque)));
      return;
    }
    const auto& planned = steps_.front()->planned().setting;
    const auto wanted = planned ? planned->applied : aim->torque;
    // What is added for a running torque that the plan does not know is as the plan asks.
    const auto most_wanted = aim->may_run ? wanted + *aim->may_run : wanted;
    if (*applied / wanted < 1.0 - kSameSetting || *applied / most_wanted > 1.0 + kSameSetting) {
      say(fmt::format("the plan asks for {} here{}, not {}{}", in_unit(wanted),
                      aim->may_run ? " and its running torque" : "", in_unit(*applied),
                      slip_text(*applied, wanted)));
    }
  }

  [[nodiscard]] const record::Entry<record::Tightening>* before_it_had_turned() const {
    const auto done = std::ranges::find(steps_, Step::Stands::Done, &Step::stands);
    return done == steps_.end() ? nullptr : (*done)->entry;
  }

  void spent() {
    for (const auto* step : steps_) {
      const auto* by = before_.spent_by(tightening_.joint, step->position);
      if (by == nullptr || step->pass_number() > by->content.pass) continue;
      say(fmt::format(
          "{} is one-time and line {} had turned it by its angle: take it out and fit a "
          "new one: out {}",
          record::write_address(tightening_.joint, step->position), by->stamp.line,
          record::write_address(tightening_.joint, step->position)));
      return;
    }
  }

  void turn() {
    const auto& planned = steps_.front()->planned();
    if (planned.pass.kind == record::PassKind::Angle && before_it_had_turned() != nullptr) {
      say(
          fmt::format("line {} had turned it already, and this comes on top: slacken fully and "
                      "start again from pass {}",
                      before_it_had_turned()->stamp.line, std::max(1, planned.restart_from)));
    }
    const auto& window = planned.pass.window;
    if (!tightening_.turned || !window) return;
    if (*tightening_.turned >= window->least && *tightening_.turned <= window->most) return;
    say(fmt::format("{} is outside {} to {}{}: slacken fully and start again from pass {}",
                    quantity::write_exact(*tightening_.turned),
                    quantity::write_exact(window->least), quantity::write_exact(window->most),
                    window->assumed ? " (assumed, the source prints no window)" : "",
                    steps_.front()->planned().restart_from));
  }

  const record::Tightening& tightening_;
  const Progress& before_;
  const record::Job& job_;
  const finding::Survey& survey_;
  record::Moment done_at_;
  record::Day day_;
  std::vector<const Step*> steps_;
  std::vector<std::string> says_;
};

}  // namespace

std::vector<std::string> remarks_on(const record::Tightening& tightening, const Reassembly& before,
                                    record::Moment done_at) {
  return Remarks(tightening, before, done_at).all();
}

}  // namespace progress
