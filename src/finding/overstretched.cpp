#include "finding/overstretched.h"

namespace finding {

bool is_overstretched(const Finding& finding, const BoltLimits& limits) {
  // An adhesive takes a part of the torque, so that the bolt may have seen less.
  if (!limits.friction_known) return false;
  const auto& torque = finding.torque;
  if (torque.basis == Basis::UpperBound || finding.graded.grade == Grade::X) return false;
  auto least = torque.reference() - torque.budget.expanded();
  if (const auto& prevailing = finding.entry->content.prevailing) {
    least = least - prevailing->torque();
  }
  return least > limits.yields_at;
}

}  // namespace finding
