#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

#include "finding/grade.h"

// Searches for the found torque of invented bolts, the proposed settings beside fixed steps.

// How one search ended. `pulls`, `grade` and `bracketed` are of the rising settings alone.
struct SearchEnd {
  std::size_t pulls = 0;
  finding::Grade grade = finding::Grade::X;
  bool bracketed = false;  // both ends found
  // Pulls until there is a bracket of grade A. One that came out wider is narrowed as the program
  // advises, whichever way it was found: backed off, pulled at its low end and from there in the
  // widest steps that give grade A. Nothing where that cannot be: one bound only, or a scale whose
  // graduation is wider than such a step.
  std::optional<std::size_t> pulls_to_grade_a;
  bool passed_ceiling = false;
  bool off_graduation = false;
};

enum class TrueTorque { BelowTolerance, Within, AboveTolerance };

struct SimulatedBolt {
  TrueTorque where = TrueTorque::Within;
  double graduation = 0.0;  // over the nominal torque
  SearchEnd proposed;
  SearchEnd fixed;  // the baseline: from 60 % of the nominal torque in steps of 5 % of it
};

// The bolt with this number of a series; the same number and seed give the same bolt. Specified
// 5 to 400 N·m, ±5, 10 or 15 %. True torque: half the bolts around 95 % of nominal (standard
// deviation 8 %), three in ten relaxed to 45 to 90 %, one in five from 100 to 140 %. Wrench: full
// scale 1.3 to 2.5 times nominal, 50, 100 or 200 graduations, N·m or ft·lbf, scatter of a single
// pull ±1 %, the same for both ways where they pull at the same setting. The mark is `on` within
// ±1.5 % of the true torque. Both ways stop at the mark, at the tolerance's top and at the wrench's
// end.
[[nodiscard]] SimulatedBolt simulate_bolt(std::uint64_t seed, std::uint64_t number);
