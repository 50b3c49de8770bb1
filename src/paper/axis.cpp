#include "paper/axis.h"

#include <algorithm>
#include <cmath>

namespace paper {

Axis axis_for(double low, double high) {
  // A single value gets a tenth of itself on either side.
  double spread = high - low;
  if (spread <= 0.0) spread = std::max(high * 0.2, 1e-6);
  Axis axis;
  axis.low = std::max(0.0, low - 0.08 * spread);
  axis.high = high + 0.08 * spread;
  const double rough = (axis.high - axis.low) / 10.0;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * power;
  for (const double factor : {5.0, 2.0, 1.0}) {
    if (factor * power >= rough) step = factor * power;
  }
  for (double n = std::ceil(axis.low / step - 1e-9); n * step <= axis.high + 1e-9 * step; ++n) {
    axis.ticks.push_back(n * step);
  }
  return axis;
}

}  // namespace paper
