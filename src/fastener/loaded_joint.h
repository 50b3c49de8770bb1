#pragma once

#include "fastener/stiffness.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "quantity/force.h"
#include "quantity/stress.h"

namespace fastener {

// A preloaded bolt under a load that pulls the joint apart.
//   P  load on one bolt    F  preload    C  bolt's share of the load (JointStiffness::bolt_share)
// Source: Shigley 9th ed., section 8-9. Valid until the parts separate.

// (C P + F)/As
[[nodiscard]] quantity::Stress bolt_stress(const Thread& thread, quantity::Force preload,
                                           double bolt_share, quantity::Force load);

// How many times the load may grow before the bolt reaches proof: (Sp As - F)/(C P). Eq. 8-29.
[[nodiscard]] double load_factor(const Thread& thread, const Strength& strength,
                                 quantity::Force preload, double bolt_share, quantity::Force load);

// How many times the load may grow before the parts separate: F/(P (1 - C)). Eq. 8-30.
[[nodiscard]] double separation_factor(quantity::Force preload, double bolt_share,
                                       quantity::Force load);

}  // namespace fastener
