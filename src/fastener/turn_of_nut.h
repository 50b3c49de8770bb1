#pragma once

#include "fastener/stiffness.h"
#include "fastener/thread.h"
#include "quantity/angle.h"
#include "quantity/force.h"

namespace fastener {

// Preload and turning of the nut against the bolt.
//   ΔF = (θ/360°) P kb km/(kb + km)
//   ΔF  change of preload    θ  turn, positive tightens    P  pitch    kb, km  stiffness of bolt
//   and clamped parts
// Source: Bickford, Introduction to the Design and Behavior of Bolted Joints, turn-angle chapter,
// and Shigley's turn-of-nut problem (from memory); the stiffness model is Shigley 9th ed., 8-4/8-5.
// Valid while everything stays elastic and the parts are in contact: after the snug point, before
// yield. So a stripe that has moved by θ tells the preload lost.
[[nodiscard]] quantity::Force preload_change(const Thread& thread, const JointStiffness& joint,
                                             quantity::Angle turn);

}  // namespace fastener
