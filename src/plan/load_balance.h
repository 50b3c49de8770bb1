#pragma once

#include <vector>

#include "record/layout.h"

namespace plan {

// How evenly a tightening order loads a joint. Every position is taken to press with the same force
// F; after k pulls the pulled positions' moment about the joint's centroid is F · |S(k)|, with S(k)
// the sum of their position vectors from the centroid. Given here: |S(k)| / (n r), n positions,
// r the distance of the farthest from the centroid; so 0 is in balance and 1 is the bound that
// nothing can reach. Elastic interaction between neighbours is left out.
struct LoadBalance {
  double worst = 0.0;  // the largest after any pull
  double mean = 0.0;   // over all pulls
};

// `order` is a permutation of 1..points.size(). A single position is in balance.
[[nodiscard]] LoadBalance load_balance(const std::vector<record::Point>& points,
                                       const std::vector<int>& order);

// The position vectors from the centroid, and the length of the longest.
struct Levers {
  std::vector<record::Point> arms;
  double longest = 0.0;
};
[[nodiscard]] Levers levers_of(const std::vector<record::Point>& points);

}  // namespace plan
