#pragma once

#include "fastener/friction.h"
#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/torque.h"

namespace fastener {

// Torque and preload with thread and head friction apart.
//   tighten:  T = F [  P/(2π) + μt d2/(2 cos 30°) + μh Dkm/2 ]
//   loosen:   T = F [ -P/(2π) + μt d2/(2 cos 30°) + μh Dkm/2 ]
//   T   torque on head or nut, N·m      F    preload, N           P   pitch, m
//   d2  pitch diameter, m               μt   thread friction      μh  head friction
//   Dkm mean diameter of the bearing face, m (bearing.h)
// Source: VDI 2230 Part 1 (2003/2015), tightening torque, and ISO 16047:2005 (from memory); the
// torques agree with 168 published VDI guideline values. The brackets are lengths: the arm at
// which the preload works.
// Valid for a 60 degree single-start thread below the elastic limit. Linear: the product of lead
// angle and friction is left out, at most 2 % of the thread's part for listed pitches and friction
// up to 0.2; the textbook's power screw (Shigley 9th ed., Eq. 8-26) keeps it. Torque that a locking
// feature takes comes on top (wrench_reading.h).

[[nodiscard]] quantity::Length tightening_arm(const Thread& thread, quantity::Length bearing,
                                              const Friction& friction);

// Negative for a thread so slippery that it runs off by itself.
[[nodiscard]] quantity::Length loosening_arm(const Thread& thread, quantity::Length bearing,
                                             const Friction& friction);

[[nodiscard]] quantity::Torque tightening_torque(const Thread& thread, quantity::Length bearing,
                                                 const Friction& friction, quantity::Force preload);

[[nodiscard]] quantity::Force preload_from_torque(const Thread& thread, quantity::Length bearing,
                                                  const Friction& friction,
                                                  quantity::Torque torque);

[[nodiscard]] quantity::Torque loosening_torque(const Thread& thread, quantity::Length bearing,
                                                const Friction& friction, quantity::Force preload);

// Loosening over tightening torque at the same friction; the preload cancels. Always below 1: a
// bolt that needs more to come loose has rusted, been glued or galled, it is not tighter.
[[nodiscard]] double loosening_ratio(const Thread& thread, quantity::Length bearing,
                                     const Friction& friction);

}  // namespace fastener
