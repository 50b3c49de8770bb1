#include "finding/line_fit.h"

#include <cmath>
#include <sstream>
#include <vector>

#include "support/catch.h"
#include "support/check_values.h"
#include "support/property.h"
#include "support/published.h"

namespace line_fit_test {

using finding::fit_line;
using finding::Point;

namespace {

std::vector<double> numbers(const std::string& text) {
  std::istringstream stream(text);
  std::vector<double> values;
  for (double value = 0.0; stream >> value;) values.push_back(value);
  return values;
}

std::vector<Point> points_of(const CheckRow& row) {
  const auto xs = numbers(row.at("x"));
  const auto ys = numbers(row.at("y"));
  REQUIRE(xs.size() == ys.size());
  std::vector<Point> points;
  for (std::size_t i = 0; i < xs.size(); ++i) points.push_back({xs[i], ys[i]});
  return points;
}

std::vector<Point> scattered(double intercept, double slope, double scatter,
                             const std::vector<int>& errors) {
  std::vector<Point> points;
  for (std::size_t i = 0; i < errors.size(); ++i) {
    const double x = 2.0 + 3.0 * static_cast<double>(i);
    points.push_back({x, intercept + slope * x + scatter * errors[i]});
  }
  return points;
}

}  // namespace

TEST_CASE("fits agree with an independent tool", "[finding]") {
  // Source: scripts/reference_line_fit.py; tool and version stand in each row.
  int fits = 0;
  for (const auto& row : read_check_values("line_fit.csv")) {
    if (row.at("kind") != "fit") continue;
    INFO(row.at("name") << " by " << row.at("tool"));
    const auto fit = fit_line(points_of(row));
    REQUIRE(fit.has_value());
    const auto agrees = [&](double value, const char* column) {
      INFO(column);
      const double expected = std::stod(row.at(column));
      CHECK_THAT(value, WithinAbs(expected, 1e-9 * std::max(1.0, std::fabs(expected))));
    };
    agrees(fit->intercept, "intercept");
    agrees(fit->slope, "slope");
    agrees(fit->intercept_error, "intercept_error");
    agrees(fit->slope_error, "slope_error");
    agrees(fit->residual_deviation, "residual_deviation");
    agrees(fit->r_squared, "r_squared");
    const double half_width = finding::intercept_half_width(*fit, 0.95);
    agrees(fit->intercept - half_width, "intercept_low");
    agrees(fit->intercept + half_width, "intercept_high");
    ++fits;
  }
  CHECK(fits >= 6);
}

TEST_CASE("quantiles of Student's distribution agree with an independent tool", "[finding]") {
  int quantiles = 0;
  for (const auto& row : read_check_values("line_fit.csv")) {
    INFO(row.at("name") << " by " << row.at("tool"));
    const double freedom = std::stod(row.at("degrees_of_freedom"));
    CHECK_THAT(finding::student_t_two_sided(0.95, freedom),
               WithinRel(std::stod(row.at("t_quantile")), 1e-9));
    if (row.at("kind") == "quantile") ++quantiles;
  }
  CHECK(quantiles == 30);
}

TEST_CASE("a published data set gives its published line", "[finding][published]") {
  // Source: F. J. Anscombe, Graphs in Statistical Analysis, The American Statistician 27 (1973),
  // first data set: y = 3 + 0.5 x, s(b) = 0.118, r² = 0.667 (from memory).
  for (const auto& row : read_check_values("line_fit.csv")) {
    if (row.at("name") != "Anscombe 1973, first set") continue;
    const auto fit = fit_line(points_of(row));
    CHECK_PUBLISHED(Published::FromMemory, fit->intercept, WithinAbs(3.0, 0.005));
    CHECK_PUBLISHED(Published::FromMemory, fit->slope, WithinAbs(0.5, 0.0005));
    CHECK_PUBLISHED(Published::FromMemory, fit->slope_error, WithinAbs(0.118, 0.0005));
    CHECK_PUBLISHED(Published::FromMemory, fit->r_squared, WithinAbs(0.667, 0.0005));
    return;
  }
  FAIL("the data set is not in line_fit.csv");
}

TEST_CASE("too few points, or all at one place, have no line", "[finding]") {
  CHECK_FALSE(fit_line(std::vector<Point>{}).has_value());
  CHECK_FALSE(fit_line(std::vector<Point>{{1, 2}, {2, 3}}).has_value());
  CHECK_FALSE(fit_line(std::vector<Point>{{3, 1}, {3, 2}, {3, 5}}).has_value());
}

TEST_CASE("a fit recovers an exact line, and scatter widens its interval", "[finding]") {
  holds_always("exact lines come back", [] {
    const double intercept = *rc::gen::inRange(1, 4000) / 10.0;
    const double slope = *rc::gen::inRange(-800, 800) / 100.0;
    const auto count = *rc::gen::inRange<std::size_t>(3, 20);
    const auto fit = fit_line(scattered(intercept, slope, 0.0, std::vector<int>(count)));
    RC_ASSERT(fit.has_value());
    RC_ASSERT(std::fabs(fit->intercept - intercept) < 1e-9 * (1.0 + intercept));
    RC_ASSERT(std::fabs(fit->slope - slope) < 1e-9);
    RC_ASSERT(fit->residual_deviation < 1e-9 * (1.0 + intercept));
  });
  holds_always("twice the scatter, twice the interval", [] {
    const auto errors =
        *rc::gen::suchThat(rc::gen::container<std::vector<int>>(rc::gen::inRange(-9, 10)),
                           [](const auto& e) { return e.size() >= 3; });
    const auto once = fit_line(scattered(80.0, -1.5, 0.1, errors));
    const auto twice = fit_line(scattered(80.0, -1.5, 0.2, errors));
    const double narrow = finding::intercept_half_width(*once, 0.95);
    const double wide = finding::intercept_half_width(*twice, 0.95);
    RC_ASSERT(std::fabs(wide - 2.0 * narrow) < 1e-9 * (1.0 + wide));
  });
}

}  // namespace line_fit_test
