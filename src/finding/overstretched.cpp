#include "finding/overstretched.h"

namespace finding {

bool is_overstretched(const Finding& finding, const BoltLimits& limits) {
  const auto& torque = finding.torque;
  if (torque.basis == Basis::UpperBound || finding.graded.grade == Grade::X) return false;
  auto least = torque.reference() - torque.budget.expanded();
  if (const auto& prevailing = finding.entry->content.prevailing) {
    least = least - prevailing->torque();
  }
  return least > limits.yields_at;
}

}  // namespace finding
