#pragma once

#include <cstddef>
#include <cstdint>

#include "finding/grade.h"

// Searches for the found torque of invented bolts, the proposed settings beside fixed steps.

// How one search ended.
struct SearchEnd {
  std::size_t pulls = 0;
  finding::Grade grade = finding::Grade::X;
  bool bracketed = false;  // both ends found
  bool passed_ceiling = false;
  bool off_graduation = false;
};

enum class TrueTorque { BelowTolerance, Within, AboveTolerance };

struct SimulatedBolt {
  TrueTorque where = TrueTorque::Within;
  SearchEnd proposed;
  SearchEnd fixed;  // the baseline: from 60 % of the nominal torque in steps of 5 % of it
};

// The bolt with this number of a series; the same number and seed give the same bolt. Specified
// 5 to 400 N·m, ±5, 10 or 15 %. True torque: half the bolts around 95 % of nominal (standard
// deviation 8 %), three in ten relaxed to 45 to 90 %, one in five from 100 to 140 %. Wrench: full
// scale 1.3 to 2.5 times nominal, 50, 100 or 200 graduations, N·m or ft·lbf, scatter of a single
// pull ±1 %. The mark is `on` within ±1.5 % of the true torque. Both ways stop at the mark, at the
// tolerance's top and at the wrench's end.
[[nodiscard]] SimulatedBolt simulate_bolt(std::uint64_t seed, std::uint64_t number);
