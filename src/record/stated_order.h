#pragma once

#include <string_view>
#include <vector>

#include "record/published_pattern.h"

namespace record {

// The order that somebody stated for the positions of a joint.
struct StatedOrder {
  std::vector<int> positions;                 // a permutation of 1..count
  const PublishedPattern* pattern = nullptr;  // that was named; nothing for a maker's own order
};

// Reads what stands in Joint::order: a published pattern by its name, which begins with a letter,
// else a maker's own order. InputError for one that does not fit so many positions.
[[nodiscard]] StatedOrder read_stated_order(std::string_view text, int count);

}  // namespace record
