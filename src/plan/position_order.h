#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "record/joint.h"

namespace plan {

// The order in which the positions of one joint are tightened.
struct PositionOrder {
  std::vector<int> positions;  // a permutation of 1..count
  std::string why;             // "cross pattern, published order for 12", "centre outwards, ..."

  bool operator==(const PositionOrder&) const = default;
};

// A maker's own order, where there is one, wins. Else by the layout: a circle, and free points that
// form an even ring (ring.h), go in the cross pattern (cross_pattern.h); all others from the centre
// outwards (centre_outwards.h). InputError for a maker's order that does not fit and for a count
// that the layout cannot hold.
[[nodiscard]] PositionOrder position_order(
    const record::Layout& layout, int count,
    std::optional<std::string_view> makers_order = std::nullopt);

// The order for a joint: the one entered for it, which is a maker's own or a published pattern by
// its name (published_pattern.h), else the computed one. InputError for one that does not fit.
[[nodiscard]] PositionOrder position_order(const record::Joint& joint);

}  // namespace plan
