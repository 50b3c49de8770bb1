#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/overstretched.h"
#include "finding/part_check.h"
#include "finding/plausibility.h"
#include "finding/specification_group.h"
#include "progress/torque_limit.h"

namespace audit {
namespace {

// What a part is made of and how much of it bears.
std::string words_of_part(const record::Joint& joint, finding::Part part) {
  return part == finding::Part::Thread
             ? fmt::format("{} {}", joint.into, record::engaged_text(joint))
             : fmt::format("{} {}", joint.seat, record::face_text(joint));
}

void implausible(const JointCase& at, Deviations& deviations) {
  for (const auto& group : finding::specification_groups(at.joint)) {
    if (group.specified == nullptr) continue;
    const auto found = finding::implausible(*group.specified, *at.joint.joint);
    if (!found || !finding::is_refused(found->plausibility)) continue;
    // What yields the bolt is no question of what is usual.
    const auto level =
        found->plausibility == finding::Plausibility::TooMuch ? Level::Hold : Level::Check;
    deviations.push_back(flag_group(
        kImplausible, level, at.joint, group.positions,
        says("the specification cannot be right: {}",
             Statement{found->says, as::procedure(group.specified->procedure).figures +
                                        as::name(at.joint.joint->size).figures +
                                        as::name(at.joint.joint->grade).figures}),
        "read the source again, number and unit; then correct the line of the specification or of "
        "the joint"));
  }
}

// One deviation for each group of positions whose specification this part does not bear.
void not_borne(const JointCase& at, const Rule& rule, finding::Part part,
               std::string_view what_to_do, Deviations& deviations) {
  const auto& joint = *at.joint.joint;
  for (const auto& group : finding::specification_groups(at.joint)) {
    if (group.specified == nullptr) continue;
    for (const auto& answer : finding::part_answers(joint, group.specified)) {
      const bool at_this_torque = answer.bears == finding::PartBears::NotLowFriction ||
                                  answer.bears == finding::PartBears::Never;
      if (answer.part != part || !at_this_torque) continue;
      deviations.push_back(flag_group(
          rule, Level::Check, at.joint, group.positions,
          says("{}", Statement{answer.says, as::procedure(group.specified->procedure).figures +
                                                as::name(joint.size).figures +
                                                as::name(joint.grade).figures +
                                                as::name(words_of_part(joint, part)).figures}),
          std::string(what_to_do)));
    }
  }
}

void thread_strips(const JointCase& at, Deviations& deviations) {
  not_borne(at, kThreadStrips, finding::Part::Thread,
            "measure the engagement again, and read the source's torque, unit and condition; a "
            "longer bolt or a thread insert holds more",
            deviations);
}

void head_presses_in(const JointCase& at, Deviations& deviations) {
  not_borne(at, kHeadPressesIn, finding::Part::Seat,
            "look at the seat for a ring pressed in; a washer or a flange spreads the force: where "
            "there is one, put the joint right with its --face",
            deviations);
}

void overstretched(const JointCase& at, Deviations& deviations) {
  for (const auto& group : finding::specification_groups(at.joint)) {
    const auto limits = finding::bolt_limits(*at.joint.joint, group.specified == nullptr
                                                                  ? fastener::Condition::AsReceived
                                                                  : group.specified->condition);
    if (!limits) continue;
    for (const int position : group.positions) {
      const auto* found = at.joint.at(position).finding();
      if (found == nullptr || !finding::is_overstretched(*found, *limits)) continue;
      const double friction = limits->friction.high.thread();
      deviations.push_back(flag_position(
          kOverstretched, Level::Hold, at.joint, position,
          says("found {}; {} yields at {} even with a friction of {}",
               as::found(found->torque, at.unit()), as::name(limits->bolt),
               as::torque(limits->yields_at, at.unit()),
               as::figure(friction, fmt::format("{:.2g}", friction))),
          "do not use it again; renew it, and look whether the thread in the part is pulled"));
    }
  }
}

// A torque behind an angle checks a bolt that may yield by design.
bool is_by_angle(const finding::PositionState& position) {
  return position.specified != nullptr && record::has_angle_step(position.specified->procedure);
}

// What the last line on a wrench set, without what it took to run the fastener down.
std::optional<quantity::Torque> clamping_torque(const JointCase& at, int position) {
  const auto* last = at.work->last_set(position);
  if (last == nullptr) return std::nullopt;
  auto torque = *record::applied_torque(last->content);
  for (const auto* step : at.progress().steps_of(at.joint.joint->code, position)) {
    const auto& aim = step->planned().pass.aim;
    if (!aim) continue;
    if (const auto& running = aim->running ? aim->running : aim->may_run) return torque - *running;
  }
  return torque;
}

// Of what was tightened beyond what its specification allows over_torqued tells.
void tightened_past_yield(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  for (const auto& group : finding::specification_groups(at.joint)) {
    const auto limits = finding::bolt_limits(*at.joint.joint, group.specified == nullptr
                                                                  ? fastener::Condition::AsReceived
                                                                  : group.specified->condition);
    if (!limits || !limits->friction_known) continue;
    for (const int position : group.positions) {
      if (is_by_angle(at.joint.at(position))) continue;
      const auto torque = clamping_torque(at, position);
      if (!torque || *torque <= limits->yields_at) continue;
      const auto most =
          progress::torque_limit(at.progress().steps_of(at.joint.joint->code, position));
      const auto* last = at.work->last_set(position);
      if (most && *record::applied_torque(last->content) > *most) continue;
      auto deviation = flag_position(
          kTightenedPastYield, Level::Hold, at.joint, position,
          says("line {} tightened it to {}; {} yields at {} even with a friction of {}",
               as::line(last->stamp), as::torque(*record::applied_torque(last->content), at.unit()),
               as::name(limits->bolt), as::torque(limits->yields_at, at.unit()),
               as::figure(limits->friction.high.thread(),
                          fmt::format("{:.2g}", limits->friction.high.thread()))),
          "look which bolt is in and put the joint or the line right; where the bolt is as it is "
          "entered, take it out and renew it");
      deviation.parts.front().rests_until = &last->stamp;
      deviations.push_back(std::move(deviation));
    }
  }
}

}  // namespace

constinit const Rule kTightenedPastYield{
    "tightened past yield",
    "fasteners set to a torque at which the bolt yields whatever the friction",
    tightened_past_yield, kRestsOn<record::Tightening>, each_in_turn};
constinit const Rule kImplausible{
    "implausible", "specifications that size and grade cannot carry, or too small to clamp",
    implausible};
constinit const Rule kThreadStrips{
    "thread strips", "specifications at which the thread in the part strips", thread_strips};
constinit const Rule kHeadPressesIn{
    "head presses in", "specifications at which the head presses into its seat", head_presses_in};
constinit const Rule kOverstretched{"overstretched",
                                    "found torques at which the bolt yields whatever the friction",
                                    overstretched, kRestsOn<record::Measured>, each_in_turn};

}  // namespace audit
