#pragma once

#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/torque.h"

namespace fastener {

// The preload from the torque that tightened a bolt last and the torque that loosens it, without
// knowing its friction:
//   F = π (T_on - T_off)/P
//   T_on  last tightening torque    T_off  torque that starts it loosening, right after    P  pitch
// Source: Eccles, LUBMAT 2014 (second-hand); it follows from the two equations of tightening.h,
// whose friction terms are the same and cancel. Holds where friction in thread and under the head
// is the same both ways: fresh, no adhesive, no rust, no locking feature (which is to be taken off
// both readings).
struct LoosenedPair {
  quantity::Torque on;
  quantity::Torque off;
};

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
