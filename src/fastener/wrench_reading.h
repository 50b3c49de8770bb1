#pragma once

#include "fastener/torque_range.h"
#include "quantity/torque.h"

namespace fastener {

// What the wrench must show when not all of its torque makes preload.

// Plain addition: stated torque plus the drag of the locking feature, read just before the nut
// touches. Source: FAA AC 43.13-1B, par. 7-40; NASA TM-106943. InputError for a negative drag.
[[nodiscard]] quantity::Torque with_prevailing_torque(quantity::Torque stated,
                                                      quantity::Torque prevailing);

// The one-third rule: drag below a third of the upper recommended torque is left out, from there on
// it is added to both ends. Source: US Army TB 43-0218 (drag read one turn before seating).
[[nodiscard]] TorqueRange with_prevailing_torque_one_third_rule(TorqueRange recommended,
                                                                quantity::Torque prevailing);

// Turning the bolt's head where the stated torque is for the nut: 10 % more, for the friction of
// the shank in its hole. Source: chapter 20 of a helicopter maintenance manual; US Army TM
// 55-1520-240-23-1 allows the same 10 %. Only where the maker's instructions have this rule.
[[nodiscard]] quantity::Torque at_bolt_head(quantity::Torque stated_for_nut);

}  // namespace fastener
