#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "finding/overstretched.h"
#include "finding/plausibility.h"
#include "finding/specification_group.h"

namespace audit {
namespace {

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
constinit const Rule kOverstretched{"overstretched",
                                    "found torques at which the bolt yields whatever the friction",
                                    overstretched, kRestsOn<record::Measured>, each_in_turn};

}  // namespace audit
