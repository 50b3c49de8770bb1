#pragma once

#include <vector>

#include "record/layout.h"

namespace plan {

// The order from the centre outwards, each pull answered from the lighter side: at every step the
// levers (position minus centroid) of the tightened positions add up to a resultant, and the next
// position is the nearest to the centroid among those that do not pull further to the same side.
// Among equally near ones: the farthest from its nearest already taken equal, then from the
// position taken last and so on (spread.h), then the highest number; the very first
// takes the lowest. A line comes out as the US
// Army straight pattern prints it: 5-6-4-7-3-8-2-9-1 for nine.
//
// Distances are equal within a twentieth of the smallest spacing between two positions, which is
// more than floating noise and less than care with a tape measure.
//
// Promise: after k pulls the resultant is at most √(1.2 k) times the largest lever, wherever the
// positions lie. For as long as any are left, one of them does not pull to the resultant's side,
// since all levers add up to nothing; so each pull adds at most (largest lever)² plus the tolerance
// to the resultant's square.
//
// Points must be distinct. Returns positions counted from 1. Time grows with the square of the
// count at worst.
[[nodiscard]] std::vector<int> centre_outwards(const std::vector<record::Point>& points);

}  // namespace plan
