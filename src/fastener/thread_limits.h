#pragma once

#include "fastener/thread.h"
#include "quantity/length.h"

namespace fastener {

// The ends of the tolerances at which bolt and tapped hole overlap least. Tolerance classes of
// ordinary work: 6g in 6H for metric, 2A in 2B for unified threads.
struct ThreadLimits {
  quantity::Length bolt_diameter;        // least major diameter of the bolt (Ds,min)
  quantity::Length bolt_pitch_diameter;  // least pitch diameter of the bolt (Es,min)
  quantity::Length hole_pitch_diameter;  // largest pitch diameter of the hole (En,max)
  quantity::Length hole_diameter;        // largest minor diameter of the hole (Kn,max)
};

// Metric, in µm, P and d in mm, d the geometric mean of the range 1.4 to 2.8, 5.6, 11.2, 22.4, 45,
// 90 mm that holds the nominal diameter:
//   es = 15 + 11 P       Td = 180 P^(2/3) - 3.15/√P      Td2 = 90 P^0.4 d^0.1      TD2 = 1.32 Td2
//   TD1 = 433 P - 190 P^1.22 below P = 1 mm, 230 P^0.7 from there on
// Unified, in inches, D the diameter, P the pitch, L = D for the listed series and 9 P else:
//   Td2 = 0.0015 D^(1/3) + 0.0015 √L + 0.015 P^(2/3)     es = 0.3 Td2     Td = 0.060 P^(2/3)
//   TD2 = 1.3 Td2        TD1 = 0.25 P - 0.4 P² from 1/4 in on (0.15 P for fewer than four threads);
//   below: 0.05 P^(2/3) + 0.03 P/D - 0.002, at least 0.25 P - 0.4 P² and at most 0.394 P
// Sources: ISO 965-1:1998 annex (from memory); ASME B1.1-2003 section 5, Td2, es, Td, TD2 as a
// reference page gives them, the minor tolerance below 1/4 in from memory. Each metric tolerance is
// rounded to the preferred numbers R40 as the standard rounds it, with the six departures of its
// tables that two charts show (seen; others may stand in larger sizes, a step of 5 to 6 % each).
// Unified ones are rounded to 0.0001 in there, which is left out here.
[[nodiscard]] ThreadLimits least_overlap(const Thread& thread);

}  // namespace fastener
