#pragma once

#include "fastener/preload_band.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "quantity/angle.h"
#include "quantity/length.h"

namespace fastener {

// What a further turn makes of a bolt that a torque has seated.
//   ΔF = (θ/360°) P kb (1 - C), at the two ends of the assumptions of lost_preload.h: the stiff end
//   gives the preload its high side, the soft end the low one.
struct TurnLimits {
  quantity::Angle clamps;       // brings the stiff end to 55 % of proof: less hardly clamps
  quantity::Angle yields_from;  // brings the stiff end to yield, twisted by the high friction
  quantity::Angle yields_by;    // brings the soft end to yield by pull alone: more yields any bolt
  quantity::Angle most;         // stretches the soft end by kMostStretch of its length beyond that
};

// The lasting stretch of the free length that no procedure should ask for. Own choice, no source:
// the nut rotations of structural bolts from 2 d to 12 d long stay below it, and the standards of
// strength promise 8 % and more before a bolt breaks.
inline constexpr double kMostStretch = 0.02;

// `under_head` is the length under the head; `seated` the preload that the torque before the angle
// made. Angles below zero count as zero.
[[nodiscard]] TurnLimits turn_limits(const Thread& thread, const Strength& strength,
                                     const FrictionBand& friction, quantity::Length under_head,
                                     const PreloadBand& seated);

enum class TurnVerdict {
  TooLittle,  // below `clamps`
  Elastic,    // up to `yields_from`
  MayYield,   // up to `yields_by`
  Yields,     // up to `most`: a bolt that is meant to be renewed
  TooMuch
};
[[nodiscard]] TurnVerdict judge_turn(const TurnLimits& limits, quantity::Angle turn);

}  // namespace fastener
