#include "finding/line_fit.h"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace finding {

std::optional<LineFit> fit_line(std::span<const Point> points) {
  if (points.size() < 3) return std::nullopt;
  const auto n = static_cast<double>(points.size());
  Point mean;
  for (const auto& point : points) {
    mean.x += point.x / n;
    mean.y += point.y / n;
  }
  double sxx = 0.0;
  double sxy = 0.0;
  double syy = 0.0;
  for (const auto& point : points) {
    sxx += (point.x - mean.x) * (point.x - mean.x);
    sxy += (point.x - mean.x) * (point.y - mean.y);
    syy += (point.y - mean.y) * (point.y - mean.y);
  }
  if (!(sxx > 0.0)) return std::nullopt;

  LineFit fit;
  fit.count = points.size();
  fit.slope = sxy / sxx;
  fit.intercept = mean.y - fit.slope * mean.x;
  double residual_squares = 0.0;
  for (const auto& point : points) {
    const double residual = point.y - mean.y - fit.slope * (point.x - mean.x);
    residual_squares += residual * residual;
  }
  fit.residual_deviation = std::sqrt(residual_squares / (n - 2.0));
  fit.slope_error = fit.residual_deviation / std::sqrt(sxx);
  fit.intercept_error = fit.residual_deviation * intercept_leverage(points);
  fit.r_squared = syy > 0.0 ? 1.0 - residual_squares / syy : 0.0;
  return fit;
}

double intercept_leverage(std::span<const Point> points) {
  const auto n = static_cast<double>(points.size());
  double mean = 0.0;
  for (const auto& point : points) mean += point.x / n;
  double sxx = 0.0;
  for (const auto& point : points) sxx += (point.x - mean) * (point.x - mean);
  return std::sqrt(1.0 / n + mean * mean / sxx);
}

double intercept_half_width(const LineFit& fit, double confidence) {
  return student_t_two_sided(confidence, static_cast<double>(fit.count) - 2.0) *
         fit.intercept_error;
}

double student_t_two_sided(double confidence, double degrees_of_freedom) {
  const boost::math::students_t_distribution<double> student(degrees_of_freedom);
  return boost::math::quantile(boost::math::complement(student, (1.0 - confidence) / 2.0));
}

}  // namespace finding
