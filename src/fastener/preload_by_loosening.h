#pragma once

#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/torque.h"

namespace fastener {

// The preload from the torque that tightened a bolt last and the torque that loosens it, without
// knowing its friction:
//   F = π (T_on - T_off)/P
//   T_on  last tightening torque    T_off  torque that starts it loosening, right after
//   P     pitch; for a screw of several starts its lead, the travel of one turn
// Source: Eccles, LUBMAT 2014 (second-hand); it follows from the two equations of tightening.h,
// whose friction terms are the same and cancel. Holds where friction in thread and under the head
// is the same both ways: fresh, no adhesive, no rust, no locking feature (which is to be taken off
// both readings). Linear: the product of friction and lead angle that tightening.h leaves out makes
// it read high by (µ/cos 30°)², 1.9 % at a thread friction of 0.12 and 3 % at 0.15, which published
// power screws show; far inside U.
struct LoosenedPair {
  quantity::Torque on;
  quantity::Torque off;
};

// F alone, for any travel of a turn.
[[nodiscard]] quantity::Force preload_of_difference(quantity::Length travel_of_turn,
                                                    const LoosenedPair& pair);

// What the result is worth. U = 2u:
//   u² = (π/P)² (a_on² + a_off² + f²)/3
//   a  half-width of a reading: kReadingShare of it, as ISO 6789-1 permits a setting wrench
//   f  kFrictionChange of the friction torque (T_on + T_off)/2: what friction may change between
//   the
//      two directions (own choice, no source)
struct PreloadByLoosening {
  quantity::Force preload;
  quantity::Force expanded;       // U
  quantity::Force from_readings;  // U of the readings alone
};
inline constexpr double kReadingShare = 0.04;
inline constexpr double kFrictionChange = 0.05;

// InputError where loosening takes as much as tightening or more: friction has changed, and the
// difference says nothing of the preload.
[[nodiscard]] PreloadByLoosening preload_by_loosening(const Thread& thread,
                                                      const LoosenedPair& pair);

}  // namespace fastener
