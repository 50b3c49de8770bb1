#pragma once

#include <optional>

#include "finding/plausibility.h"
#include "finding/survey.h"

namespace finding {

// True where the finding shows that the bolt yielded whatever its friction: the least torque it was
// surely at, without the torque that a locking feature took, lies above the yield torque at the
// high end of the friction band. An upper bound and what is no evidence show nothing.
[[nodiscard]] bool is_overstretched(const Finding& finding, const BoltLimits& limits);

}  // namespace finding
