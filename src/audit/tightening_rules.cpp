#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "progress/torque_limit.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/person.h"

namespace audit {
namespace {

using progress::JointWork;
using progress::Step;
using progress::Tightened;
using Stands = Step::Stands;

// Torques come through unit conversions; a part in a million is the same torque.
constexpr double kSameTorque = 1e-6;

std::vector<const Step*> steps_of(const JointCase& at, int position) {
  return at.progress().steps_of(at.joint.joint->code, position);
}

// Something was tightened at this position since it last came out.
bool was_tightened(const JointCase& at, const finding::PositionState& position) {
  return at.work != nullptr && !at.work->done_at(position.position).empty();
}

// Work in this pass that the plan does not count, because the position came out before it in the
// midst of its passes, and did not start again at the first.
bool went_on_after_out(const JointCase& at, int position, int pass) {
  if (at.progress().broken_off(at.joint.joint->code, position) == nullptr) return false;
  return std::ranges::any_of(at.work->done_at(position), [&](const Tightened* entry) {
    return record::is_work(entry->content) && entry->content.pass == pass;
  });
}

// What was done in the pass of that number by the plan of then, which asks there for something else
// now: it is not missing.
const Tightened* done_otherwise(const JointCase& at, const Step& step) {
  if (step.stands != Stands::Open || step.entry != nullptr) return nullptr;
  if (at.progress().broken_off(at.joint.joint->code, step.position) != nullptr) return nullptr;
  const auto& done = at.work->done_at(step.position);
  const auto found = std::ranges::find_if(done, [&](const Tightened* entry) {
    return record::is_work(entry->content) && entry->content.pass == step.pass_number();
  });
  return found == done.end() ? nullptr : *found;
}

// The first pass of the position that was done otherwise, behind which others are done; nothing
// where there is none.
const Step* first_done_otherwise(const JointCase& at, int position) {
  const Step* first = nullptr;
  for (const auto* step : steps_of(at, position)) {
    if (first == nullptr && done_otherwise(at, *step) != nullptr) first = step;
    if (first != nullptr && step->stands == Stands::Done) return first;
  }
  return nullptr;
}

struct Skipped {
  std::vector<int> silently;
  const Tightened* broken_off = nullptr;  // of one of those that came out in the midst of it
  std::vector<int> with_reason;
  std::string reason;
};

// By the number of the pass.
std::map<int, Skipped> skipped_in(const JointCase& at) {
  std::map<int, Skipped> by_pass;
  for (const auto& position : at.joint.positions) {
    if (!was_tightened(at, position)) continue;
    const auto steps = steps_of(at, position.position);
    bool went_on = false;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
      auto& skipped = by_pass[(*step)->pass_number()];
      if ((*step)->stands == Stands::Done ||
          ((*step)->entry == nullptr &&
           went_on_after_out(at, position.position, (*step)->pass_number()))) {
        went_on = true;
      } else if ((*step)->stands == Stands::LeftOut) {
        skipped.with_reason.push_back(position.position);
        skipped.reason = (*step)->entry->content.skipped_why;
      } else if (went_on && (*step)->entry == nullptr && done_otherwise(at, **step) == nullptr) {
        skipped.silently.push_back(position.position);
        if (skipped.broken_off == nullptr) {
          skipped.broken_off = at.progress().broken_off(at.joint.joint->code, position.position);
        }
      }
    }
  }
  return by_pass;
}

void pass_skipped(const JointCase& at, Deviations& deviations) {
  for (const auto& [pass, skipped] : skipped_in(at)) {
    if (!skipped.silently.empty()) {
      auto deviation = flag_part(
          kPassSkipped, Level::Hold, at.joint, fmt::format("pass-{}", pass),
          says("pass {} is missing at {}, though later ones are done{}", as::count(pass),
               as::numbers(skipped.silently),
               skipped.broken_off == nullptr
                   ? Statement{}
                   : says(" (what was done before it came out, line {}, counts no more)",
                          as::line(skipped.broken_off->stamp))),
          "slacken the joint and go through its passes again in order, or enter what was done");
      deviation.positions = skipped.silently;
      deviations.push_back(std::move(deviation));
    }
    if (!skipped.with_reason.empty()) {
      auto deviation = flag_part(
          kPassSkipped, Level::Check, at.joint, fmt::format("left-out-{}", pass),
          says("pass {} was left out at {}: {}", as::count(pass), as::numbers(skipped.with_reason),
               as::name(skipped.reason)),
          fmt::format("do it: \"boltwitness tighten {} --pass {}\"; it stays open until then",
                      record::write_address(at.joint.joint->code, skipped.with_reason), pass));
      deviation.positions = skipped.with_reason;
      deviations.push_back(std::move(deviation));
    }
  }
}

// Tightened all the same where a decision leaves the hole alone: the plan has no pass for it, and
// one of the two lines is wrong.
void tightened_left_alone(const JointCase& at, int position, const record::Stamp& decision,
                          Deviations& deviations) {
  const auto& done = at.work->done_at(position);
  if (done.empty()) return;
  deviations.push_back(
      flag_position(kOtherTarget, Level::Hold, at.joint, position,
                    says("line {} decided that it stays as it was found, yet line {} tightened it",
                         as::line(decision), as::line(done.back()->stamp)),
                    fmt::format("where a fastener is in, strike the decision: strike {} --why ...; "
                                "where none is, enter the tightening with the right positions: "
                                "tighten JOINT/POSITIONS --replace {} --why ...",
                                decision.line, done.back()->stamp.line)));
}

// How those that were turned by an angle go on, where the joint is one-time.
std::string once_more_by_plan(const JointCase& at, const std::vector<int>& positions) {
  const auto& code = at.joint.joint->code;
  std::vector<int> spent;
  for (const int position : positions) {
    if (at.progress().spent_by(code, position) != nullptr) spent.push_back(position);
  }
  constexpr const char* kChanged =
      "the specification, the count or the passes have changed since: ";
  if (spent.empty()) return fmt::format("{}tighten by the plan as it is now", kChanged);
  return fmt::format(
      "{}what was turned by its angle and is one-time is not tightened again: take it out, fit new "
      "ones and tighten those: out {}",
      kChanged, record::write_address(code, spent));
}

// The last work in a pass of a number that the plan of the position does not have; nothing where
// there is none.
const Tightened* beyond_plan(const JointCase& at, int position) {
  const auto steps = steps_of(at, position);
  const Tightened* last = nullptr;
  for (const auto* entry : at.work->done_at(position)) {
    if (!record::is_work(entry->content)) continue;
    const bool is_planned = std::ranges::any_of(
        steps, [&](const Step* step) { return step->pass_number() == entry->content.pass; });
    if (!is_planned) last = entry;
  }
  return last;
}

// All that the plan asks for is done, and something that it does not ask for besides.
void done_beyond_plan(const JointCase& at, Deviations& deviations) {
  std::map<std::int64_t, std::pair<const Tightened*, std::vector<int>>> by_line;
  for (const int position : at.work->other_work) {
    if (!at.progress().has_final_value(at.joint.joint->code, position)) continue;
    const auto* entry = beyond_plan(at, position);
    if (entry == nullptr) continue;
    auto& [line, positions] = by_line[entry->stamp.line];
    line = entry;
    positions.push_back(position);
  }
  for (const auto& [number, told] : by_line) {
    const auto& [entry, positions] = told;
    auto deviation = flag_part(
        kOtherTarget, Level::Check, at.joint, fmt::format("beyond-{}", positions.front()),
        says("line {} is pass {} of {}, and the plan has {} there: it counts for none of them",
             as::line(entry->stamp), as::count(entry->content.pass), as::numbers(positions),
             as::count(steps_of(at, positions.front()).back()->pass_number())),
        fmt::format("where the plan had more when it was done, settle it; where the line is wrong, "
                    "strike it: strike {} --why ...",
                    number));
    deviation.positions = positions;
    deviations.push_back(std::move(deviation));
  }
}

void other_target(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  done_beyond_plan(at, deviations);
  const auto& code = at.joint.joint->code;
  std::set<int> positions;
  for (const int position : at.work->other_work) {
    if (at.progress().has_final_value(code, position)) continue;
    if (const auto* decision = at.whole.lookups->decided.at(code, position).left_alone) {
      tightened_left_alone(at, position, *decision, deviations);
    } else {
      positions.insert(position);
    }
  }
  const bool is_all = !positions.empty();
  const Step* otherwise = nullptr;
  for (const auto& position : at.joint.positions) {
    if (!was_tightened(at, position)) continue;
    const auto* step = first_done_otherwise(at, position.position);
    if (step == nullptr) continue;
    if (otherwise == nullptr) otherwise = step;
    positions.insert(position.position);
  }
  if (positions.empty()) return;
  const std::vector<int> which(positions.begin(), positions.end());
  auto deviation = flag_joint(
      kOtherTarget, Level::Hold, at.joint,
      is_all ? says("{} was tightened to values that the plan does not ask for any more",
                    as::numbers(which))
             : says("pass {} was done at {} by another plan (line {}): it asks for something else "
                    "now",
                    as::count(otherwise->pass_number()), as::numbers(which),
                    as::line(done_otherwise(at, *otherwise)->stamp)),
      once_more_by_plan(at, which));
  deviation.positions = which;
  deviations.push_back(std::move(deviation));
}

// The lines above the limit since it last came out: the highest, and the one done last.
struct Over {
  const Tightened* highest = nullptr;
  const Tightened* last = nullptr;
};

Over over_limit(const JointWork& work, int position, quantity::Torque limit) {
  Over over;
  for (const auto* entry : work.done_at(position)) {
    const auto torque = record::applied_torque(entry->content);
    if (!torque || record::is_skipped(entry->content)) continue;
    if (*torque / limit <= 1.0 + kSameTorque) continue;
    over.last = entry;
    if (over.highest == nullptr || *torque > *record::applied_torque(over.highest->content)) {
      over.highest = entry;
    }
  }
  return over;
}

// What the limit holds of it, in words that follow from the figures.
Statement running_text(const JointCase& at, int position) {
  for (const auto* step : steps_of(at, position)) {
    const auto& aim = step->planned().pass.aim;
    if (!aim || !aim->may_run) continue;
    return as::wording(fmt::format(", {} of it to run it down, the most that was read at {}",
                                   quantity::write_rounded(*aim->may_run, at.unit()),
                                   at.joint.joint->code));
  }
  return {};
}

void over_torqued(const JointCase& at, const finding::PositionState& position,
                  Deviations& deviations) {
  if (!was_tightened(at, position)) return;
  const auto most = progress::torque_limit(steps_of(at, position.position));
  if (!most) return;
  const auto over = over_limit(*at.work, position.position, *most);
  if (over.highest == nullptr) return;
  auto deviation = flag_position(
      kOverTorqued, Level::Hold, at.joint, position.position,
      says("line {} tightened it to {}; the most that any pass allows is {}{}",
           as::line(over.highest->stamp),
           as::torque(*record::applied_torque(over.highest->content), at.unit()),
           as::torque(*most, at.unit()), running_text(at, position.position)),
      "slacken it, hold its length and thread against a new one, renew it where in doubt, and "
      "start it again from pass 1");
  // The work by which a decision on it is carried out leaves that decision standing.
  deviation.parts.front().rests_until = &over.last->stamp;
  deviations.push_back(std::move(deviation));
}

void under_torqued(const JointCase& at, const finding::PositionState& position,
                   Deviations& deviations) {
  if (!was_tightened(at, position)) return;
  const auto* entry = at.progress().ended_below(at.joint.joint->code, position.position);
  if (entry == nullptr) return;
  const auto& aim = *steps_of(at, position.position).back()->planned().pass.aim;
  deviations.push_back(flag_position(
      kUnderTorqued, Level::Hold, at.joint, position.position,
      says("line {} ended at {}; the least that is specified is {}", as::line(entry->stamp),
           as::torque(*record::applied_torque(entry->content), at.unit()),
           as::torque(*aim.low, at.unit())),
      "tighten it to the final value, or strike the line and enter what it was set to"));
}

// How far a setting may be from the torque asked for before it is told: more than rounding to marks
// a percent apart or another wrench's graduation makes of it, and well within every tolerance.
constexpr double kSetAsAsked = 0.05;

// Closer to the printed torque than this, nothing was added: the rounding to a wrench's marks.
constexpr double kNothingOnTop = 0.01;

// The line that did this step with another torque than the plan's, within all limits.
const Tightened* set_otherwise_in(const Step& step, quantity::Torque most) {
  if (step.stands != Stands::Done || !step.planned().pass.aim) return nullptr;
  const auto applied = record::applied_torque(step.entry->content);
  if (!applied || *applied / most > 1.0 + kSameTorque) return nullptr;
  const auto& aim = *step.planned().pass.aim;
  if (plan::is_minimum(aim) || plan::is_maximum(aim)) return nullptr;
  const auto is_as_asked = [&](quantity::Torque asked) {
    return std::abs(*applied / asked - 1.0) <= kSetAsAsked;
  };
  if (is_as_asked(aim.torque)) return nullptr;
  const auto& planned = step.planned().setting;
  return planned && is_as_asked(planned->applied) ? nullptr : step.entry;
}

// Set to what the sheet prints plus what it takes to run it down, which the sheet leaves to the
// wrench: as asked, up to the most that was read at its siblings.
bool holds_its_running(const Step& step) {
  const auto applied = record::applied_torque(step.entry->content);
  const auto& aim = *step.planned().pass.aim;
  if (!applied || !aim.may_run) return false;
  return *applied >= aim.torque && *applied / (aim.torque + *aim.may_run) <= 1.0 + kSetAsAsked;
}

// It is what the position stands at, below the least that is specified.
bool ends_too_low(const Step& step, const JointWork& work) {
  const auto& low = step.planned().pass.aim->low;
  return low && work.last_set(step.position) == step.entry &&
         *record::applied_torque(step.entry->content) / *low < 1.0 - kSameTorque;
}

// A pass that was set to another torque than it asks for: drawn together unevenly, or near a limit.
void set_otherwise(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  struct Other {
    const Step* step = nullptr;  // of the first of them
    std::vector<int> positions;
  };
  std::map<int, Other> by_pass;
  for (const auto& position : at.joint.positions) {
    if (!was_tightened(at, position)) continue;
    const auto steps = steps_of(at, position.position);
    const auto most = progress::torque_limit(steps);
    if (!most) continue;
    for (const auto* step : steps) {
      if (set_otherwise_in(*step, *most) == nullptr || holds_its_running(*step)) continue;
      if (ends_too_low(*step, *at.work)) continue;  // under_torqued's to tell
      auto& other = by_pass[step->pass_number()];
      if (other.step == nullptr) other.step = step;
      other.positions.push_back(position.position);
    }
  }
  for (const auto& [pass, other] : by_pass) {
    const auto& first = *other.step;
    auto deviation = flag_part(
        kSetOtherwise, Level::Check, at.joint, fmt::format("pass-{}", pass),
        says("pass {} asks for {} and was set to {} at {} (line {})", as::count(pass),
             as::torque(first.planned().pass.aim->torque, at.unit()),
             as::torque(*record::applied_torque(first.entry->content), at.unit()),
             as::numbers(other.positions), as::line(first.entry->stamp)),
        fmt::format("where it was set so, see that the part lies evenly, and go round at the value "
                    "asked for: tighten {}/{} --pass {}; where the line is wrong, replace it",
                    at.joint.joint->code, fmt::join(other.positions, ","), pass));
    deviation.positions = other.positions;
    deviation.keeps_unfinished = at.joint.joint->critical;
    deviations.push_back(std::move(deviation));
  }
}

// A new self-locking fastener takes some of the torque to run down before it seats, and none was
// read: what it stands at is what was asked for without that, and it clamps by so much less.
void running_torque_left_out(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  std::vector<int> positions;
  const Step* first = nullptr;
  for (const auto& position : at.joint.positions) {
    if (!was_tightened(at, position)) continue;
    if (!at.progress().has_final_value(at.joint.joint->code, position.position)) continue;
    const auto* stands_at = at.work->last_set(position.position);
    const auto steps = steps_of(at, position.position);
    const auto step = std::ranges::find_if(
        steps, [&](const Step* one) { return one->entry != nullptr && one->entry == stands_at; });
    if (step == steps.end() || !(*step)->planned().pass.aim) continue;
    const auto& aim = *(*step)->planned().pass.aim;
    const auto applied = record::applied_torque(stands_at->content);
    if (!aim.may_run || !applied || *applied / aim.torque > 1.0 + kNothingOnTop) continue;
    positions.push_back(position.position);
    if (first == nullptr) first = *step;
  }
  if (first == nullptr) return;
  const auto& aim = *first->planned().pass.aim;
  auto deviation = flag_joint(
      kRunningTorqueLeftOut, Level::Check, at.joint,
      says("{} is self-locking and was tightened to {} (line {}) with nothing on top for running "
           "it down, which took up to {} at its siblings",
           as::numbers(positions),
           as::torque(*record::applied_torque(first->entry->content), at.unit()),
           as::line(first->entry->stamp), as::torque(*aim.may_run, at.unit())),
      fmt::format("what it takes to run it down is read while it turns before it seats; go round "
                  "once more with that on top: tighten {} --pass {} --set SETTING; where it was "
                  "contained, replace the line, and where none is needed, settle it",
                  record::write_address(at.joint.joint->code, positions), first->pass_number()));
  deviation.positions = positions;
  deviation.keeps_unfinished = at.joint.joint->critical;
  deviations.push_back(std::move(deviation));
}

// What spent a one-time fastener that was tightened by angle, since it came out.
struct Spent {
  const Tightened* by = nullptr;  // the line that did; nothing where none did
  const Tightened* after =
      nullptr;  // the turn it had had before; nothing where one turn went too far
};

// Turned beyond its window, or tightened once more after it had had its turn.
Spent spent_by(const std::vector<const Step*>& steps, const JointWork& work, int position) {
  const Tightened* turned = nullptr;
  for (const auto* entry : work.done_at(position)) {
    const auto& done = entry->content;
    if (!record::is_work(done)) continue;
    const auto kind = done.target.kind;
    if (kind == record::PassKind::Renew) turned = nullptr;
    const bool tightens = kind == record::PassKind::Snug || kind == record::PassKind::Torque ||
                          kind == record::PassKind::Angle;
    if (tightens && turned != nullptr && done.pass <= turned->content.pass) return {entry, turned};
    if (kind != record::PassKind::Angle) continue;
    turned = entry;
    const auto step = std::ranges::find(steps, done.pass, &Step::pass_number);
    if (step == steps.end() || !done.turned) continue;
    const auto& window = (*step)->planned().pass.window;
    if (window && *done.turned > window->most) return {entry, nullptr};
  }
  return {};
}

void one_time_spent(const JointCase& at, int position, const Spent& spent, Deviations& deviations) {
  constexpr const char* kTakeOut =
      "take it out, fit another new one and start it again from pass 1: out {}";
  auto what =
      spent.after == nullptr
          ? says("line {} turned a one-time fastener by {}, beyond its window",
                 as::line(spent.by->stamp), as::angle(*spent.by->content.turned))
          : says("line {} tightened a one-time fastener again that line {} had turned by its angle",
                 as::line(spent.by->stamp), as::line(spent.after->stamp));
  auto deviation =
      of_kind(flag_position(kTurn, Level::Hold, at.joint, position, std::move(what),
                            fmt::format(fmt::runtime(kTakeOut),
                                        record::write_address(at.joint.joint->code, position))),
              "one-time");
  deviation.what_to_do_at = kTakeOut;
  deviations.push_back(std::move(deviation));
}

void turn(const JointCase& at, const finding::PositionState& position, Deviations& deviations) {
  if (!was_tightened(at, position)) return;
  const auto steps = steps_of(at, position.position);
  // A one-time fastener is spent by it, whatever was done with it afterwards.
  if (at.joint.joint->one_time) {
    const auto spent = spent_by(steps, *at.work, position.position);
    if (spent.by != nullptr) {
      one_time_spent(at, position.position, spent, deviations);
      return;
    }
  }
  constexpr const char* kStartAgain =
      "slacken it fully, look at fastener and seat, renew it where the source asks for it, and "
      "start it again from pass 1";
  for (const auto* step : steps) {
    if (step->stands != Stands::Open || step->on_top_of == nullptr) continue;
    const auto& first = step->on_top_of->stamp;
    const auto& second = step->entry->stamp;
    const auto by = as::angle(step->entry->content.turned.value_or(*step->planned().pass.angle));
    // Where two did it, each may know what the other does not.
    deviations.push_back(flag_position(
        kTurn, Level::Hold, at.joint, position.position,
        record::is_same_person(first.by, second.by)
            ? says("line {} turned it by {} on top of line {}, and nothing tells that it was "
                   "slackened between",
                   as::line(second), by, as::line(first))
            : says("line {} (by {}) turned it by {} on top of line {} (by {}), and nothing tells "
                   "that it was slackened between",
                   as::line(second), as::name(second.by), by, as::line(first), as::name(first.by)),
        kStartAgain));
    return;
  }
  for (const auto* step : steps) {
    const auto& window = step->planned().pass.window;
    if (step->stands != Stands::Open || step->entry == nullptr || !window) continue;
    const auto& turned = step->entry->content.turned;
    if (!turned || (*turned >= window->least && *turned <= window->most)) continue;
    deviations.push_back(flag_position(
        kTurn, Level::Hold, at.joint, position.position,
        says("line {} turned it by {} where {} to {} is {}", as::line(step->entry->stamp),
             as::angle(*turned), as::angle(window->least), as::angle(window->most),
             as::wording(window->assumed ? "assumed (the source prints no window)" : "specified")),
        kStartAgain));
  }
}

// Where two people did one thing, by their lines: the first, then the second.
using DoneByTwo = std::map<std::pair<const record::Stamp*, const record::Stamp*>, std::vector<int>,
                           decltype([](const auto& a, const auto& b) {
                             return std::pair(a.first->line, a.second->line) <
                                    std::pair(b.first->line, b.second->line);
                           })>;

void flag_done_by_two(const JointCase& at, const std::string& kind, const Statement& what,
                      const DoneByTwo& twice, Deviations& deviations) {
  if (twice.empty()) return;
  std::vector<Statement> where;
  std::vector<int> all;
  for (const auto& [lines, positions] : twice) {
    const auto& [first, second] = lines;
    where.push_back(says("at {} by {} (line {}) and once more by {} (line {})",
                         as::numbers(positions), as::name(first->by), as::line(*first),
                         as::name(second->by), as::line(*second)));
    all.insert(all.end(), positions.begin(), positions.end());
  }
  std::ranges::sort(all);
  auto deviation = flag_part(
      kDoneByTwo, Level::Note, at.joint, kind, says("{} {}", what, joined(where, "; ")),
      "ask both whether it was done twice; where one of them did another one, strike that line "
      "and enter what was done");
  deviation.positions = std::move(all);
  deviations.push_back(std::move(deviation));
}

// A pass or final stripe that two people did at the same positions, one after the other, as when
// both had it before them: nothing is wrong with the fastener that was brought to its torque twice.
void done_by_two(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  std::map<int, DoneByTwo> by_pass;
  DoneByTwo stripes;
  for (const auto& position : at.joint.positions) {
    for (const auto* step : steps_of(at, position.position)) {
      if (step->stands != Stands::Done || step->done_before_by_other == nullptr) continue;
      by_pass[step->pass_number()][{&step->done_before_by_other->stamp, &step->entry->stamp}]
          .push_back(position.position);
    }
    const auto finish = at.progress().finish_of(at.joint.joint->code, position.position);
    if (finish.stripe == nullptr || finish.striped_before_by_other == nullptr) continue;
    stripes[{&finish.striped_before_by_other->stamp, &finish.stripe->stamp}].push_back(
        position.position);
  }
  for (const auto& [pass, twice] : by_pass) {
    flag_done_by_two(at, fmt::format("pass-{}", pass), says("pass {} was done", as::count(pass)),
                     twice, deviations);
  }
  flag_done_by_two(at, "stripe", as::wording("the final stripe was drawn"), stripes, deviations);
}

}  // namespace

constinit const Rule kPassSkipped{"pass skipped",
                                  "passes that are missing or were left out at some positions",
                                  pass_skipped, kRestsOn<record::Tightening>};
constinit const Rule kOtherTarget{
    "other target", "fasteners tightened to what the specification has since ceased to ask for",
    other_target, kRestsOn<record::Tightening>};
constinit const Rule kOverTorqued{"over-torqued",
                                  "fasteners tightened above the most that any pass allows",
                                  over_torqued, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kUnderTorqued{"under-torqued",
                                   "fasteners whose final value lies below the tolerance",
                                   under_torqued, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kSetOtherwise{"set otherwise",
                                   "passes that were set to another torque than they ask for",
                                   set_otherwise, kRestsOn<record::Tightening>};
constinit const Rule kRunningTorqueLeftOut{
    "running torque left out",
    "self-locking fasteners tightened without what it takes to run them down",
    running_torque_left_out, kRestsOn<record::Tightening>};
constinit const Rule kDoneByTwo{
    "done by two", "passes and final stripes that two people did at the same positions",
    done_by_two, kRestsOn<record::Tightening, record::FinalStripe>};
constinit const Rule kTurn{"turn outside its window",
                           "angle passes that turned too little or too far", turn,
                           kRestsOn<record::Tightening>, each_in_turn};

}  // namespace audit
