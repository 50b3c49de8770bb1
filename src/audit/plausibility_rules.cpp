#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/overstretched.h"
#include "finding/part_check.h"
#include "finding/plausibility.h"
#include "finding/specification_group.h"

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
    deviations.push_back(flag_group(
        kImplausible, Level::Check, at.joint, group.positions,
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

}  // namespace

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
