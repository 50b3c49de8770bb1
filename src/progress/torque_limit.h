#pragma once

#include <optional>
#include <vector>

#include "progress/progress.h"

namespace progress {

// The most that any pass may bring the position to, from its steps: the highest upper limit among
// its torques, and the torque itself where a pass has no limits; with what it may take to run it
// down, where that of its own is not known (plan::Aim::may_run). Nothing where no torque is known
// or where a minimum is asked for without a maximum.
[[nodiscard]] std::optional<quantity::Torque> torque_limit(const std::vector<const Step*>& steps);

}  // namespace progress
