#pragma once

#include <optional>

#include "finding/survey.h"

namespace finding {

// A test of any position of the joint met a running torque before the fastener seated.
[[nodiscard]] bool has_running_torque(const JointState& joint);

// The most that a test of any of its positions read; nothing where none did.
[[nodiscard]] std::optional<quantity::StatedTorque> most_running_torque(const JointState& joint);

// True where the fasteners of this position hold themselves: its specification has threadlocker on
// them, or a test of any position of the joint met a running torque before the fastener seated,
// since one joint has one kind of fastener.
[[nodiscard]] bool is_self_locking(const JointState& joint, int position);

// Whether a fastener that has turned, and is slackened for it, is used no more: a self-locking one,
// whose lock is gone, and one-time fasteners, which were stretched once already.
[[nodiscard]] bool is_spent_once_slackened(const JointState& joint, int position);

}  // namespace finding
