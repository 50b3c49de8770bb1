#include "record/outline.h"

#include <algorithm>

namespace record {

Outline outline_of(const std::vector<Point>& points) {
  const auto [left, right] = std::ranges::minmax_element(points, {}, &Point::x);
  const auto [top, bottom] = std::ranges::minmax_element(points, {}, &Point::y);
  return {left->x, top->y, right->x - left->x, bottom->y - top->y};
}

}  // namespace record
