#pragma once

#include <optional>
#include <vector>

#include "record/layout.h"

namespace plan {

// The positions in the order in which they follow each other round a ring, from position 1 towards
// the lower-numbered of its two neighbours; so a bolt circle counted either way round comes out as
// 1, 2, 3, ... Nothing where the points are no evenly filled ring: four or more, every distance
// from the centroid within 5 % of their mean and every direction within a quarter of a step of even
// division, which allows for coordinates taken with a tape measure.
[[nodiscard]] std::optional<std::vector<int>> ring_of(const std::vector<record::Point>& points);

}  // namespace plan
