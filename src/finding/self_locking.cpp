#include "finding/self_locking.h"

#include <algorithm>

namespace finding {

bool has_running_torque(const JointState& joint) {
  return std::ranges::any_of(joint.positions, [](const PositionState& state) {
    return std::ranges::any_of(state.findings, [](const Finding& finding) {
      return finding.entry->content.prevailing.has_value();
    });
  });
}

std::optional<quantity::StatedTorque> most_running_torque(const JointState& joint) {
  std::optional<quantity::StatedTorque> most;
  for (const auto& state : joint.positions) {
    for (const auto& finding : state.findings) {
      const auto& read = finding.entry->content.prevailing;
      if (read && (!most || read->torque() > most->torque())) most = read;
    }
  }
  return most;
}

bool is_self_locking(const JointState& joint, int position) {
  const auto* specified = joint.at(position).specified;
  if (specified != nullptr && specified->condition == fastener::Condition::Threadlocker) {
    return true;
  }
  return has_running_torque(joint);
}

bool is_spent_once_slackened(const JointState& joint, int position) {
  return joint.joint->one_time || is_self_locking(joint, position);
}

}  // namespace finding
