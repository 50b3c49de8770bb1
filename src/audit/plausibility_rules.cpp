#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/plausibility.h"

namespace audit {
namespace {

using finding::Finding;
using quantity::Torque;

void implausible(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    const auto* specified = joint.specified();
    if (specified == nullptr) continue;
    const auto found = finding::implausible(*specified, *joint.joint);
    if (!found || !finding::is_refused(found->plausibility)) continue;
    deviations.push_back(flag_joint(
        kImplausible, Level::Check, joint, "the specification cannot be right: " + found->says,
        "read the source again, number and unit; then correct the line of the specification or of "
        "the joint"));
  }
}

// The least that the finding says the fastener was at, without the torque that a locking feature
// took; nothing for an upper bound and for what is no evidence.
std::optional<Torque> surely_reached(const Finding& finding) {
  const auto& torque = finding.torque;
  if (torque.basis == finding::Basis::UpperBound || finding.graded.grade == finding::Grade::X) {
    return std::nullopt;
  }
  auto least = torque.reference() - torque.budget.expanded();
  if (const auto& prevailing = finding.entry->content.prevailing) {
    least = least - prevailing->torque();
  }
  return least;
}

void overstretched(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    const auto* specified = joint.specified();
    const auto limits =
        finding::bolt_limits(*joint.joint, specified == nullptr ? fastener::Condition::AsReceived
                                                                : specified->condition);
    // An adhesive takes a part of the torque, so that the bolt may have seen less.
    if (!limits || !limits->friction_known) continue;
    for (const auto& position : joint.positions) {
      const auto* found = position.finding();
      if (found == nullptr) continue;
      const auto least = surely_reached(*found);
      if (!least || *least <= limits->yields_at) continue;
      deviations.push_back(flag_position(
          kOverstretched, Level::Hold, joint, position.position,
          fmt::format("found {}; {} yields at {} even with a friction of {:.2g}",
                      found_text(subject, found->torque), limits->bolt,
                      torque_text(subject, limits->yields_at), limits->friction.high.thread()),
          "do not use it again; renew it, and look whether the thread in the part is pulled"));
    }
  }
}

}  // namespace

constinit const Rule kImplausible{
    "implausible", "specifications that size and grade cannot carry, or too small to clamp",
    implausible};
constinit const Rule kOverstretched{
    "overstretched", "found torques at which the bolt yields whatever the friction", overstretched};

}  // namespace audit
