#pragma once

#include "fastener/friction.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/percent.h"
#include "quantity/stress.h"
#include "quantity/torque.h"

namespace fastener {

// How much of its strength a tightened bolt uses.

// F/(Sp As): the pull alone against the proof stress, or against what stands in for it
// (proof_basis).
[[nodiscard]] quantity::Percent share_of_proof(const Thread& thread, const Strength& strength,
                                               quantity::Force preload);
[[nodiscard]] quantity::Force preload_at_proof_share(const Thread& thread, const Strength& strength,
                                                     quantity::Percent share);

// Pull and twist together while the bolt is being tightened, by von Mises:
//   σred = √(σ² + 3 τ²),   σ = F/As,   τ = 12 M/(π d0³),   M = F (d2/2)(P/(π d2) + μt/cos 30°) + Tr
//   d2  pitch diameter   d0  stress diameter (thread_geometry.h)   P  pitch   μt  thread friction
//   Tr  running torque of a locking feature, which twists the bolt as the thread does
// Source: VDI 2230 Part 1 (2003), assembly stress and permitted assembly preload (from memory); the
// preloads agree with 168 published guideline values. The twist is spread evenly, as in a bolt
// about to yield all through. Holds for a shank no thinner than the stress diameter.
[[nodiscard]] quantity::Stress combined_stress(const Thread& thread, quantity::Force preload,
                                               double thread_friction, quantity::Torque running);
[[nodiscard]] quantity::Percent share_of_yield(const Thread& thread, const Strength& strength,
                                               quantity::Force preload, double thread_friction,
                                               quantity::Torque running);

// The preload at which σred is this share of the yield stress: FM,zul of VDI 2230, which uses 90 %.
// Zero where the running torque alone twists the bolt that far.
[[nodiscard]] quantity::Force assembly_preload(const Thread& thread, quantity::Stress yield,
                                               double thread_friction, quantity::Percent share,
                                               quantity::Torque running);

// The tightening torques that bring the bolt to a share of proof (pull alone, running torque left
// out) or of yield (pull and twist, running torque included).
[[nodiscard]] quantity::Torque torque_for_proof_share(const Thread& thread,
                                                      quantity::Length bearing,
                                                      const Friction& friction,
                                                      const Strength& strength,
                                                      quantity::Percent share);
[[nodiscard]] quantity::Torque torque_for_yield_share(
    const Thread& thread, quantity::Length bearing, const Friction& friction,
    const Strength& strength, quantity::Percent share, quantity::Torque running);

}  // namespace fastener
