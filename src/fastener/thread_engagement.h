#pragma once

#include "fastener/part_material.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "quantity/area.h"
#include "quantity/force.h"
#include "quantity/length.h"

namespace fastener {

// Whether the thread in a part strips before the bolt gives way.

// The least areas in which engaged threads can shear off, for a length of engagement L:
//   hole  An = π (L/P) Ds,min [P/2 + (Ds,min - En,max)/√3]
//   bolt  As = π (L/P) Kn,max [P/2 + (Es,min - Kn,max)/√3]
//   Ds, Es  major and pitch diameter of the bolt   En, Kn  pitch and minor diameter of the hole
//   (thread_limits.h)
// Source: FED-STD-H28/2B (from memory); the areas of the hole agree with a published table of 40
// unified threads (seen).
struct StrippingAreas {
  quantity::Area hole;
  quantity::Area bolt;
};
[[nodiscard]] StrippingAreas stripping_areas(const Thread& thread, quantity::Length engaged);

// The pull at which the weaker of the two threads strips, as a band:
//   high  shear strength times area, as if all threads bore alike
//   low   0.897 of that, and without the 0.8 P at the mouth that bears nothing
// Source of the low end: VDI 2230 Part 1, C3 for a bolt stronger than the part and the part of the
// first thread that is left out (from memory). The bolt's thread shears at 0.6 Rm. Valid for a
// solid part at least 1.9 d wide around the hole; a thinner wall opens and holds less.
struct StrippingForce {
  quantity::Force low;
  quantity::Force high;
  bool hole_strips = true;  // else the thread of the bolt
};
[[nodiscard]] StrippingForce stripping_force(const Thread& thread, const Strength& bolt,
                                             const PartMaterial& part, quantity::Length engaged);

// A bolt may be this much stronger than its grade promises. Source: VDI 2230 Part 1, RmS,max = 1.2
// Rm (from memory); a published example takes 1200 for 1040 MPa (seen).
inline constexpr double kStrongestOverLeast = 1.2;

// The engagement that is needed, as a band:
//   low   the yield load of the bolt, at the high end of the stripping force
//   high  1.2 times its tensile load, at the low end: the bolt breaks before the thread strips
struct EngagementNeeded {
  quantity::Length low;
  quantity::Length high;
};
[[nodiscard]] EngagementNeeded engagement_needed(const Thread& thread, const Strength& bolt,
                                                 const PartMaterial& part);

// What gives way first when the bolt is pulled too far.
enum class FirstToFail {
  Bolt,           // engaged over the whole band
  ThreadPerhaps,  // within the band: the bolt yields first, pulled further the thread may strip
  Thread          // below it: the thread strips before the bolt yields
};
[[nodiscard]] FirstToFail first_to_fail(const EngagementNeeded& needed, quantity::Length engaged);

}  // namespace fastener
