#pragma once

#include <optional>
#include <vector>

namespace finding {

// d2 for ranges of two values: the mean range of two over the standard deviation of a normal
// distribution, 2/√π = 1.128.
inline constexpr double kMeanRangeOfTwo = 1.128;

// The control band of single values in their order.
struct IndividualsChart {
  double centre = 0.0;             // their mean
  double mean_moving_range = 0.0;  // of each value and the one before it
  double low = 0.0;
  double high = 0.0;
};

// Individuals and moving ranges, NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (from
// memory):
//   centre ± 3 · mean moving range / d2,  3 / 1.128 = 2.66
// It takes the values to be near a normal distribution and independent of each other. Nothing for
// fewer than two values, which have no moving range. How many make a band worth having is for the
// caller to say.
[[nodiscard]] std::optional<IndividualsChart> individuals_chart(const std::vector<double>& values);

}  // namespace finding
