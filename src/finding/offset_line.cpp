#include "finding/offset_line.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "finding/line_fit.h"
#include "quantity/length_text.h"

namespace finding {
namespace {

using quantity::Torque;
using record::Mark;
using record::SettingReading;

constexpr double kConfidence = 0.95;
constexpr double kLeastRSquared = 0.9;
constexpr double kFarthest = 0.5;  // beyond the nearest offset, as a share of their span

bool has_offset(const SettingReading& reading) {
  return reading.offset.has_value() || reading.mark == Mark::On;
}

double offset_of(const SettingReading& reading) {
  return reading.offset ? reading.offset->in_degrees() : 0.0;
}

// x in degrees short of the line, y in N·m at the fastener.
std::vector<Point> points_of(const record::Measured& measured) {
  std::vector<Point> points;
  for (const auto& reading : measured.readings) {
    if (!has_offset(reading)) continue;
    points.push_back(
        {offset_of(reading), record::applied_torque(measured, reading.setting).in_newton_metres()});
  }
  return points;
}

bool stuck(const std::vector<SettingReading>& readings) {
  const auto first = std::ranges::find_if(readings, has_offset);
  return std::any_of(first, readings.end(), [](const auto& r) { return r.mark == Mark::NoMove; });
}

bool too_far(const std::vector<Point>& points) {
  const auto [least, most] = std::ranges::minmax(points, {}, &Point::x);
  const double beyond = std::max({0.0, least.x, -most.x});
  return beyond > kFarthest * (most.x - least.x);
}

bool any_outlier(const std::vector<Point>& points, const LineFit& fit,
                 const ReadingLimits& limits) {
  return std::ranges::any_of(points, [&](const Point& point) {
    const double allowed = point.y * record::permissible_deviation(limits.wrench).ratio() +
                           std::fabs(fit.slope) * limits.mark_error.in_degrees();
    return std::fabs(point.y - fit.intercept - fit.slope * point.x) > allowed;
  });
}

LineUse flaw_of(const record::Measured& measured, const ReadingLimits& limits,
                const std::vector<Point>& points, const LineFit& fit) {
  if (stuck(measured.readings)) return LineUse::Stuck;
  if (!(fit.slope < 0.0)) return LineUse::NotRising;
  if (fit.r_squared < kLeastRSquared) return LineUse::Scattered;
  if (too_far(points)) return LineUse::TooFar;
  if (-fit.slope > limits.steepest.in_newton_metres()) return LineUse::TooSteep;
  if (any_outlier(points, fit, limits)) return LineUse::Outlier;
  return LineUse::Used;
}

// To the degree; offsets in mm to the millimetre at their radius, where that is coarser.
quantity::Angle resolution_of(const record::Measured& measured) {
  if (measured.radius_typed.empty()) return kOffsetResolution;
  const auto in_millimetres = quantity::Angle::radians(
      kOffsetResolutionAtRadius / quantity::read_length(measured.radius_typed));
  return std::max(kOffsetResolution, in_millimetres);
}

// What the resolution of the offsets alone leaves of the intercept, as 95 % of a normal
// distribution: many small errors are added.
double resolution_half_width(const std::vector<Point>& points, const LineFit& fit,
                             quantity::Angle resolution) {
  constexpr double kNormal = 1.96;
  const double error_of_one = std::fabs(fit.slope) * resolution.in_degrees() / std::numbers::sqrt3;
  return kNormal * error_of_one * intercept_leverage(points);
}

}  // namespace

std::string_view why_of(LineUse use) {
  switch (use) {
    case LineUse::NoOffsets:
    case LineUse::Used:
      return "";
    case LineUse::NotNarrower:
      return "the line through the offsets is no narrower than the bracket";
    case LineUse::OutsideBracket:
      return "the line through the offsets meets the mark outside the bracket";
    case LineUse::TooFew:
      return "a line needs three readings with different offsets";
    case LineUse::NotRising:
      return "torque does not rise as the mark closes";
    case LineUse::Scattered:
      return "the offsets do not follow a line (r² below 0.9)";
    case LineUse::TooFar:
      return "the offsets end too far from the line to reach for it";
    case LineUse::TooSteep:
      return "torque rises faster with the offsets than such a bolt can make it";
    case LineUse::Outlier:
      return "one reading lies farther off the line than wrench and mark explain";
    case LineUse::Stuck:
      return "the fastener did not move at one of the pulls";
  }
  return "";
}

OffsetLineResult offset_line(const record::Measured& measured, const ReadingLimits& limits) {
  const bool any_noted = std::ranges::any_of(
      measured.readings, [](const auto& reading) { return reading.offset.has_value(); });
  if (!any_noted) return {std::nullopt, LineUse::NoOffsets};
  const auto points = points_of(measured);
  const auto fit = fit_line(points);
  if (!fit) return {std::nullopt, LineUse::TooFew};
  const auto flaw = flaw_of(measured, limits, points, *fit);
  if (flaw != LineUse::Used) return {std::nullopt, flaw};
  return {OffsetLine{Torque::newton_metres(fit->intercept),
                     Torque::newton_metres(
                         std::hypot(intercept_half_width(*fit, kConfidence),
                                    resolution_half_width(points, *fit, resolution_of(measured)))),
                     Torque::newton_metres(-fit->slope)},
          LineUse::Used};
}

}  // namespace finding
