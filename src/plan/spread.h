#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace plan {

// Spreads the pulls over a set of places: picks the candidate farthest from its nearest taken
// neighbour; among equals the one farthest from the place taken last, then from the one before
// that, and so on; among candidates equal in all of these, the first in the span.
// `nearest[c]` is candidate c's distance from its nearest taken neighbour, `taken` the places in
// the order they were taken, `distance(a, b)` symmetric. Two distances within `tolerance` are
// equal. Nothing where there is no candidate.
template <class Distance>
[[nodiscard]] std::optional<std::size_t> most_spread(std::span<const std::size_t> candidates,
                                                     const std::vector<double>& nearest,
                                                     std::span<const std::size_t> taken,
                                                     double tolerance, const Distance& distance) {
  const auto is_better = [&](std::size_t challenger, std::size_t best) {
    if (nearest[challenger] > nearest[best] + tolerance) return true;
    if (nearest[challenger] < nearest[best] - tolerance) return false;
    for (std::size_t back = taken.size(); back > 0; --back) {
      const double lead = distance(challenger, taken[back - 1]) - distance(best, taken[back - 1]);
      if (lead > tolerance) return true;
      if (lead < -tolerance) return false;
    }
    return false;
  };
  std::optional<std::size_t> best;
  for (const std::size_t candidate : candidates) {
    if (!best || is_better(candidate, *best)) best = candidate;
  }
  return best;
}

}  // namespace plan
