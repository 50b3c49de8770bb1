#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace finding {

struct Point {
  double x = 0.0;
  double y = 0.0;
};

// The straight line y = intercept + slope x through measured points, x taken as free of error.
struct LineFit {
  std::size_t count = 0;
  double intercept = 0.0;  // y at x = 0
  double slope = 0.0;
  double intercept_error = 0.0;     // standard error of the intercept
  double slope_error = 0.0;         // standard error of the slope
  double residual_deviation = 0.0;  // s, with count - 2 degrees of freedom
  double r_squared = 0.0;           // share of the variation of y that the line explains
};

// Ordinary least squares:
//   Sxx = Σ(x - x̄)²   Sxy = Σ(x - x̄)(y - ȳ)   Syy = Σ(y - ȳ)²
//   slope b = Sxy/Sxx     intercept a = ȳ - b x̄     s² = Σ(y - a - b x)²/(n - 2)
//   s(b) = s/√Sxx         s(a) = s √(1/n + x̄²/Sxx)  r² = 1 - Σ(y - a - b x)²/Syy
// Source: Draper and Smith, Applied Regression Analysis, 3rd ed., sections 1.2 to 1.4, and the
// NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1 (both from memory). Assumes errors of y
// that are independent and of one size. Nothing for fewer than three points, or where all have the
// same x: such points have no line with an uncertainty. r² is 0 where all have the same y.
[[nodiscard]] std::optional<LineFit> fit_line(std::span<const Point> points);

// √(1/n + x̄²/Sxx): the standard error of the intercept for each unit of error in a single y. The
// points must have a line (fit_line).
[[nodiscard]] double intercept_leverage(std::span<const Point> points);

// Half the width of the two-sided confidence interval of the intercept: t(n - 2) s(a).
[[nodiscard]] double intercept_half_width(const LineFit& fit, double confidence);

// The quantile t with P(|T| <= t) = confidence of Student's distribution. confidence lies between
// 0 and 1, degrees of freedom above zero.
[[nodiscard]] double student_t_two_sided(double confidence, double degrees_of_freedom);

}  // namespace finding
