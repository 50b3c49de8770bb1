#pragma once

#include <string>
#include <vector>

#include "record/joint.h"

namespace plan {

// The order in which the positions of one joint are tightened.
struct PositionOrder {
  std::vector<int> positions;  // a permutation of 1..count
  std::string why;             // "cross pattern, published order for 12", "centre outwards, ..."

  bool operator==(const PositionOrder&) const = default;
};

// By the layout: a circle, and free points that form an even ring (ring.h), go in the cross pattern
// (cross_pattern.h); all others from the centre outwards (centre_outwards.h). InputError for a
// count that the layout cannot hold.
[[nodiscard]] PositionOrder position_order(const record::Layout& layout, int count);

// The order for a joint: the one entered for it (record/stated_order.h), which wins, else the
// computed one. InputError for one that does not fit.
[[nodiscard]] PositionOrder position_order(const record::Joint& joint);

}  // namespace plan
