#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "progress/torque_limit.h"
#include "quantity/number_text.h"
#include "record/address.h"

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
      } else if (went_on && (*step)->entry == nullptr) {
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

void other_target(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  std::vector<int> positions;
  for (const int position : at.work->other_work) {
    if (at.progress().has_final_value(code, position)) continue;
    if (const auto* decision = at.whole.lookups->decided.at(code, position).left_alone) {
      tightened_left_alone(at, position, *decision, deviations);
    } else {
      positions.push_back(position);
    }
  }
  if (positions.empty()) return;
  auto deviation = flag_joint(
      kOtherTarget, Level::Hold, at.joint,
      says("{} was tightened to values that the plan does not ask for any more",
           as::numbers(positions)),
      "the specification, the count or the passes have changed since: tighten by the plan as it "
      "is now");
  deviation.positions = positions;
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
  if (!at.progress().has_final_value(at.joint.joint->code, position.position)) return;
  const auto& last = steps_of(at, position.position).back()->planned().pass;
  const auto* entry = at.work->last_set(position.position);
  if (!last.aim || !last.aim->low || entry == nullptr) return;
  const auto torque = *record::applied_torque(entry->content);
  if (torque / *last.aim->low >= 1.0 - kSameTorque) return;
  deviations.push_back(flag_position(
      kUnderTorqued, Level::Hold, at.joint, position.position,
      says("line {} ended at {}; the least that is specified is {}", as::line(entry->stamp),
           as::torque(torque, at.unit()), as::torque(*last.aim->low, at.unit())),
      "tighten it to the final value, or strike the line and enter what it was set to"));
}

// The first turn beyond its window since the fastener came out; nothing where there is none.
const Tightened* overturned(const std::vector<const Step*>& steps, const JointWork& work,
                            int position) {
  for (const auto* entry : work.done_at(position)) {
    const auto step = std::ranges::find(steps, entry->content.pass, &Step::pass_number);
    if (step == steps.end() || !entry->content.turned) continue;
    const auto& window = (*step)->planned().pass.window;
    if (window && *entry->content.turned > window->most) return entry;
  }
  return nullptr;
}

void turn(const JointCase& at, const finding::PositionState& position, Deviations& deviations) {
  if (!was_tightened(at, position)) return;
  const auto steps = steps_of(at, position.position);
  // A one-time fastener is spent by it, whatever was done with it afterwards.
  const auto* spent =
      at.joint.joint->one_time ? overturned(steps, *at.work, position.position) : nullptr;
  if (spent != nullptr) {
    constexpr const char* kTakeOut =
        "take it out, fit another new one and start it again from pass 1: out {}";
    auto deviation = of_kind(
        flag_position(kTurn, Level::Hold, at.joint, position.position,
                      says("line {} turned a one-time fastener by {}, beyond its window",
                           as::line(spent->stamp), as::angle(*spent->content.turned)),
                      fmt::format(fmt::runtime(kTakeOut),
                                  record::write_address(at.joint.joint->code, position.position))),
        "one-time");
    deviation.what_to_do_at = kTakeOut;
    deviations.push_back(std::move(deviation));
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
        "slacken it fully, look at fastener and seat, renew it where the source asks for it, and "
        "start it again from pass 1"));
  }
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
constinit const Rule kTurn{"turn outside its window",
                           "angle passes that turned too little or too far", turn,
                           kRestsOn<record::Tightening>, each_in_turn};

}  // namespace audit
