#pragma once

#include "finding/found_torque.h"
#include "finding/verdict.h"
#include "record/specification.h"

namespace finding {

// Torque measured by mark, loosen and tighten back to the mark, over the torque once applied:
// 0.9 to 1.1, about 1.0. Source: a published handbook on tightening (its Table 3-1, seen; the
// middle is marked there as approximate, by experiment). The other methods of the same table:
// loosening 0.6 to 0.9, about 0.8; further tightening 0.9 to 1.2, about 1.05.
inline constexpr double kLeastFoundOverTightened = 0.9;
inline constexpr double kMostFoundOverTightened = 1.1;

// What the fastener was once tightened to: the second question. The first, what turns it to its
// mark today, is FoundTorque. Between the two lies what settling, relaxation, a new start from rest
// and a surface that was run over again make; nobody knows it for the one fastener, so this is an
// estimate with a wider uncertainty, never "the original torque".
struct TightenedTo {
  quantity::Torque best;      // found over the middle of the ratio; of a bound, the bound
  quantity::Torque expanded;  // U = 2 √[u(found)² + (T · half the range/√3)²]
};
[[nodiscard]] TightenedTo tightened_to(const FoundTorque& found);

// Against the limits, by the rule of judge().
[[nodiscard]] Verdict judge_tightened(const FoundTorque& found,
                                      const record::ToleranceWindow& window);

}  // namespace finding
