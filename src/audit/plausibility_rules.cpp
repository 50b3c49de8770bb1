#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/overstretched.h"
#include "finding/plausibility.h"
#include "finding/specification_group.h"

namespace audit {
namespace {

void implausible(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& group : finding::specification_groups(joint)) {
      if (group.specified == nullptr) continue;
      const auto found = finding::implausible(*group.specified, *joint.joint);
      if (!found || !finding::is_refused(found->plausibility)) continue;
      deviations.push_back(flag_group(
          kImplausible, Level::Check, joint, group.positions,
          "the specification cannot be right: " + found->says,
          "read the source again, number and unit; then correct the line of the specification or "
          "of the joint"));
    }
  }
}

void overstretched(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& group : finding::specification_groups(joint)) {
      const auto limits = finding::bolt_limits(*joint.joint, group.specified == nullptr
                                                                 ? fastener::Condition::AsReceived
                                                                 : group.specified->condition);
      if (!limits) continue;
      for (const int position : group.positions) {
        const auto* found = joint.at(position).finding();
        if (found == nullptr || !finding::is_overstretched(*found, *limits)) continue;
        deviations.push_back(flag_position(
            kOverstretched, Level::Hold, joint, position,
            fmt::format("found {}; {} yields at {} even with a friction of {:.2g}",
                        found_text(subject, found->torque), limits->bolt,
                        torque_text(subject, limits->yields_at), limits->friction.high.thread()),
            "do not use it again; renew it, and look whether the thread in the part is pulled"));
      }
    }
  }
}

}  // namespace

constinit const Rule kImplausible{
    "implausible", "specifications that size and grade cannot carry, or too small to clamp",
    implausible};
constinit const Rule kOverstretched{"overstretched",
                                    "found torques at which the bolt yields whatever the friction",
                                    overstretched, RestsOn{.findings = true}};

}  // namespace audit
