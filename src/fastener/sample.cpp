#include "fastener/sample.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>

namespace fastener {

Sample sample_of(std::span<const double> values) {
  const auto count = static_cast<double>(values.size());
  const double mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  double squares = 0.0;
  for (const double value : values) squares += (value - mean) * (value - mean);
  return {values.size(), mean, values.size() < 2 ? 0.0 : std::sqrt(squares / (count - 1.0))};
}

std::optional<double> mean_half_width(const Sample& sample) {
  if (sample.count < 2) return std::nullopt;
  const auto count = static_cast<double>(sample.count);
  const boost::math::students_t_distribution<double> student(count - 1.0);
  return boost::math::quantile(boost::math::complement(student, 0.025)) * sample.deviation /
         std::sqrt(count);
}

double tolerance_factor(std::size_t count, double coverage, double confidence) {
  const auto n = static_cast<double>(count);
  const boost::math::normal_distribution<double> normal;
  const boost::math::chi_squared_distribution<double> spread(n - 1.0);
  return boost::math::quantile(normal, (1.0 + coverage) / 2.0) *
         std::sqrt((n - 1.0) * (1.0 + 1.0 / n) / boost::math::quantile(spread, 1.0 - confidence));
}

}  // namespace fastener
