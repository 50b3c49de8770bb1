#pragma once

#include "fastener/thread.h"
#include "quantity/area.h"
#include "quantity/length.h"

namespace fastener {

// Basic measures of the 60 degree profile, from the nominal diameter and the pitch.
//   d   nominal (major) diameter, mm    P   pitch, mm    H = P √3/2   profile height, mm
// Source: ISO 68-1:1998 (profile) and ISO 724:1993 (formulas). The unified profile is the same
// (ASME B1.1). Tolerances are left out: a real thread is a little smaller.

// d2 = d - 2 · 3/8 H = d - 0.649519 P
[[nodiscard]] quantity::Length pitch_diameter(const Thread& thread);

// D1 = d - 2 · 5/8 H = d - 1.082532 P, the minor diameter of the nut or the tapped hole.
[[nodiscard]] quantity::Length nut_minor_diameter(const Thread& thread);

// d3, where the bolt is thinnest.
// Metric: d3 = d1 - H/6 = d - 1.226869 P, root rounded with H/6 (ISO 898-1:2013, 9.1.6.1).
// Unified: d3 = d - 11/8 H = d - 1.190785 P, the rounded root of the UNR form (ASME B1.1), which
// bolts have.
[[nodiscard]] quantity::Length root_diameter(const Thread& thread);

// The diameter of a plain rod as strong as the thread.
// Metric: ds = (d2 + d3)/2 = d - 0.938194 P (ISO 898-1:2013, 9.1.6.1).
// Unified: ds = d - 0.9743 P (ASME B1.1, as NASA TM-106943 and Shigley 9th ed. Table 8-2 use it).
[[nodiscard]] quantity::Length stress_diameter(const Thread& thread);

// As = π/4 ds²
[[nodiscard]] quantity::Area stress_area(const Thread& thread);

// The area at the root. Metric: π/4 d3². Unified: π/4 (d - 1.299038 P)², the flat root of the sharp
// form, which is what ASME B1.1 and Shigley 9th ed. Table 8-2 tabulate as minor-diameter area.
[[nodiscard]] quantity::Area root_area(const Thread& thread);

}  // namespace fastener
