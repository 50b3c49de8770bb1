#pragma once

#include "quantity/torque.h"

namespace fastener {

// What the wrench must show when not all of its torque makes preload.

// Plain addition: stated torque plus the drag of the locking feature, read just before the nut
// touches. Source: FAA AC 43.13-1B, par. 7-40; NASA TM-106943. InputError for a negative drag.
[[nodiscard]] quantity::Torque with_prevailing_torque(quantity::Torque stated,
                                                      quantity::Torque prevailing);

}  // namespace fastener
