#pragma once

#include <vector>

#include "record/layout.h"

namespace record {

// The upright rectangle round some points.
struct Outline {
  double left = 0.0;
  double top = 0.0;
  double width = 0.0;
  double height = 0.0;
};

// Of at least one point.
[[nodiscard]] Outline outline_of(const std::vector<Point>& points);

}  // namespace record
