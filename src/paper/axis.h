#pragma once

#include <vector>

namespace paper {

// An axis of a chart: from `low` to `high`, with round numbers to mark.
struct Axis {
  double low = 0.0;
  double high = 1.0;
  std::vector<double> ticks;  // rising, within low..high

  // 0 at the low end, 1 at the high end.
  [[nodiscard]] double share(double value) const { return (value - low) / (high - low); }
};

// The axis that holds all of low..high with some room at both ends, starting at zero at the least,
// marked in steps of 1, 2 or 5 times a power of ten: four to eleven marks.
[[nodiscard]] Axis axis_for(double low, double high);

}  // namespace paper
