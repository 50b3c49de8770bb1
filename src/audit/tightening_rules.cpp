#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "progress/torque_limit.h"
#include "quantity/angle_text.h"
#include "record/address.h"

namespace audit {
namespace {

using progress::JointWork;
using progress::Step;
using progress::Tightened;
using Stands = Step::Stands;

// Torques come through unit conversions; a part in a million is the same torque.
constexpr double kSameTorque = 1e-6;

// Calls `act` for every position of which something was tightened since it last came out.
template <class Act>
void for_each_position(const Case& subject, Act&& act) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    for (const auto& position : work.state->positions) {
      if (!work.done_at(position.position).empty()) act(work, position.position);
    }
  }
}

std::vector<const Step*> steps_of(const Case& subject, const JointWork& work, int position) {
  return subject.work->progress().steps_of(work.state->joint->code, position);
}

void pass_skipped(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    struct Skipped {
      std::vector<int> silently;
      std::vector<int> with_reason;
      std::string reason;
    };
    std::map<int, Skipped> by_pass;
    for (const auto& position : work.state->positions) {
      if (work.done_at(position.position).empty()) continue;
      const auto steps = steps_of(subject, work, position.position);
      bool went_on = false;
      for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
        auto& skipped = by_pass[(*step)->pass_number()];
        if ((*step)->stands == Stands::Done) {
          went_on = true;
        } else if ((*step)->stands == Stands::LeftOut) {
          skipped.with_reason.push_back(position.position);
          skipped.reason = (*step)->entry->content.skipped_why;
        } else if (went_on && (*step)->entry == nullptr) {
          skipped.silently.push_back(position.position);
        }
      }
    }
    for (const auto& [pass, skipped] : by_pass) {
      if (!skipped.silently.empty()) {
        deviations.push_back(flag_part(
            kPassSkipped, Level::Hold, *work.state, fmt::format("pass-{}", pass),
            fmt::format("pass {} is missing at {}, though later ones are done", pass,
                        record::write_positions(skipped.silently)),
            "slacken the joint and go through its passes again in order, or enter what was done"));
      }
      if (!skipped.with_reason.empty()) {
        deviations.push_back(
            flag_part(kPassSkipped, Level::Check, *work.state, fmt::format("left-out-{}", pass),
                      fmt::format("pass {} was left out at {}: {}", pass,
                                  record::write_positions(skipped.with_reason), skipped.reason),
                      "do it, or decide that it stays so"));
      }
    }
  }
}

void other_target(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  std::map<std::string, std::vector<int>> by_joint;  // folded
  for (const auto& other : subject.work->progress().other_work()) {
    by_joint[record::folded_code(other.entry->content.joint)].push_back(other.position);
  }
  for (const auto& work : subject.work->joints()) {
    const auto found = by_joint.find(record::folded_code(work.state->joint->code));
    if (found == by_joint.end()) continue;
    auto positions = found->second;
    std::ranges::sort(positions);
    positions.erase(std::unique(positions.begin(), positions.end()), positions.end());
    std::erase_if(positions, [&](int position) {
      return subject.work->progress().has_final_value(work.state->joint->code, position);
    });
    if (positions.empty()) continue;
    deviations.push_back(flag_joint(
        kOtherTarget, Level::Hold, *work.state,
        fmt::format("{} was tightened to values that the plan does not ask for any more",
                    record::write_positions(positions)),
        "the specification, the count or the passes have changed since: tighten by the plan as it "
        "is now"));
  }
}

// The highest torque since it last came out, with its line.
const Tightened* highest(const JointWork& work, int position) {
  const Tightened* most = nullptr;
  for (const auto* entry : work.done_at(position)) {
    const auto torque = record::applied_torque(entry->content);
    if (!torque || record::is_skipped(entry->content)) continue;
    if (most == nullptr || *torque > *record::applied_torque(most->content)) most = entry;
  }
  return most;
}

void over_torqued(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_position(subject, [&](const JointWork& work, int position) {
    const auto most = progress::torque_limit(steps_of(subject, work, position));
    const auto* entry = highest(work, position);
    if (!most || entry == nullptr) return;
    const auto torque = *record::applied_torque(entry->content);
    if (torque / *most <= 1.0 + kSameTorque) return;
    deviations.push_back(flag_position(
        kOverTorqued, Level::Hold, *work.state, position,
        fmt::format("line {} tightened it to {}; the most that any pass allows is {}",
                    entry->stamp.line, torque_text(subject, torque), torque_text(subject, *most)),
        "slacken it, hold its length and thread against a new one, renew it where in doubt, and "
        "start it again from pass 1"));
  });
}

void under_torqued(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_position(subject, [&](const JointWork& work, int position) {
    if (!subject.work->progress().has_final_value(work.state->joint->code, position)) return;
    const auto& last = steps_of(subject, work, position).back()->planned().pass;
    const auto* entry = work.last_set(position);
    if (!last.aim || !last.aim->low || entry == nullptr) return;
    const auto torque = *record::applied_torque(entry->content);
    if (torque / *last.aim->low >= 1.0 - kSameTorque) return;
    deviations.push_back(flag_position(
        kUnderTorqued, Level::Hold, *work.state, position,
        fmt::format("line {} ended at {}; the least that is specified is {}", entry->stamp.line,
                    torque_text(subject, torque), torque_text(subject, *last.aim->low)),
        "tighten it to the final value, or strike the line and enter what it was set to"));
  });
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

void turn(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_position(subject, [&](const JointWork& work, int position) {
    // A one-time fastener is spent by it, whatever was done with it afterwards.
    const auto* spent = work.state->joint->one_time
                            ? overturned(steps_of(subject, work, position), work, position)
                            : nullptr;
    if (spent != nullptr) {
      deviations.push_back(flag_position(
          kTurn, Level::Hold, *work.state, position,
          fmt::format("line {} turned a one-time fastener by {}, beyond its window",
                      spent->stamp.line, quantity::write_exact(*spent->content.turned)),
          fmt::format("take it out, fit another new one and start it again from pass 1: out {}",
                      record::write_address(work.state->joint->code, position))));
      return;
    }
    for (const auto* step : steps_of(subject, work, position)) {
      const auto& window = step->planned().pass.window;
      if (step->stands != Stands::Open || step->entry == nullptr || !window) continue;
      const auto& turned = step->entry->content.turned;
      if (!turned || (*turned >= window->least && *turned <= window->most)) continue;
      deviations.push_back(flag_position(
          kTurn, Level::Hold, *work.state, position,
          fmt::format("line {} turned it by {} where {} to {} is {}", step->entry->stamp.line,
                      quantity::write_exact(*turned), quantity::write_exact(window->least),
                      quantity::write_exact(window->most),
                      window->assumed ? "assumed (the source prints no window)" : "specified"),
          "slacken it fully, look at fastener and seat, renew it where the source asks for it, and "
          "start it again from pass 1"));
    }
  });
}

}  // namespace

constinit const Rule kPassSkipped{"pass skipped",
                                  "passes that are missing or were left out at some positions",
                                  pass_skipped, RestsOn{.tightenings = true}};
constinit const Rule kOtherTarget{
    "other target", "fasteners tightened to what the specification has since ceased to ask for",
    other_target, RestsOn{.tightenings = true}};
constinit const Rule kOverTorqued{"over-torqued",
                                  "fasteners tightened above the most that any pass allows",
                                  over_torqued, RestsOn{.tightenings = true}};
constinit const Rule kUnderTorqued{"under-torqued",
                                   "fasteners whose final value lies below the tolerance",
                                   under_torqued, RestsOn{.tightenings = true}};
constinit const Rule kTurn{"turn outside its window",
                           "angle passes that turned too little or too far", turn,
                           RestsOn{.tightenings = true}};

}  // namespace audit
