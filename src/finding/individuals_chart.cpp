#include "finding/individuals_chart.h"

#include <cmath>
#include <numeric>

namespace finding {

std::optional<IndividualsChart> individuals_chart(const std::vector<double>& values) {
  if (values.size() < 2) return std::nullopt;
  IndividualsChart chart;
  chart.centre =
      std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  for (std::size_t i = 1; i < values.size(); ++i) {
    chart.mean_moving_range += std::abs(values[i] - values[i - 1]);
  }
  chart.mean_moving_range /= static_cast<double>(values.size() - 1);
  const double reach = 3.0 * chart.mean_moving_range / kMeanRangeOfTwo;
  chart.low = chart.centre - reach;
  chart.high = chart.centre + reach;
  return chart;
}

}  // namespace finding
