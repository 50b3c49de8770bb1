#include "fastener/thread_limits.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "fastener/thread_geometry.h"

namespace fastener {
namespace {

using quantity::Length;

// How far the tolerances take each diameter from its basic size.
struct Deviations {
  Length allowance;  // of the bolt, at all its diameters
  Length bolt_diameter;
  Length bolt_pitch_diameter;
  Length hole_pitch_diameter;
  Length hole_diameter;
};

// The geometric mean of the standard's range of diameters.
double middle_of_range(double diameter_mm) {
  constexpr std::array kEnds = {1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0};
  for (std::size_t i = 1; i < kEnds.size(); ++i) {
    if (diameter_mm <= kEnds[i]) return std::sqrt(kEnds[i - 1] * kEnds[i]);
  }
  return std::sqrt(kEnds[kEnds.size() - 2] * kEnds.back());
}

Deviations metric_deviations(const Thread& thread) {
  const double pitch = thread.pitch().in_millimetres();
  const double diameter = middle_of_range(thread.diameter().in_millimetres());
  const auto micrometres = [](double value) { return Length::millimetres(value / 1000.0); };
  const double pitch_diameter_tolerance = 90.0 * std::pow(pitch, 0.4) * std::pow(diameter, 0.1);
  return {micrometres(15.0 + 11.0 * pitch),
          micrometres(180.0 * std::cbrt(pitch * pitch) - 3.15 / std::sqrt(pitch)),
          micrometres(pitch_diameter_tolerance), micrometres(1.32 * pitch_diameter_tolerance),
          micrometres(pitch < 1.0 ? 433.0 * pitch - 190.0 * std::pow(pitch, 1.22)
                                  : 230.0 * std::pow(pitch, 0.7))};
}

double hole_tolerance_in(double diameter, double pitch) {
  const double usual = pitch > 0.25 ? 0.15 * pitch : 0.25 * pitch - 0.4 * pitch * pitch;
  if (diameter >= 0.25) return usual;
  const double small = 0.05 * std::cbrt(pitch * pitch) + 0.03 * pitch / diameter - 0.002;
  return std::clamp(small, usual, 0.394 * pitch);
}

Deviations unified_deviations(const Thread& thread) {
  const double pitch = thread.pitch().in_inches();
  const double diameter = thread.diameter().in_inches();
  const double engagement = thread.series() == ThreadSeries::UnifiedOther ? 9.0 * pitch : diameter;
  const double pitch_diameter_tolerance = 0.0015 * std::cbrt(diameter) +
                                          0.0015 * std::sqrt(engagement) +
                                          0.015 * std::cbrt(pitch * pitch);
  return {Length::inches(0.3 * pitch_diameter_tolerance),
          Length::inches(0.060 * std::cbrt(pitch * pitch)),
          Length::inches(pitch_diameter_tolerance), Length::inches(1.3 * pitch_diameter_tolerance),
          Length::inches(hole_tolerance_in(diameter, pitch))};
}

}  // namespace

ThreadLimits least_overlap(const Thread& thread) {
  const auto by = thread.is_metric() ? metric_deviations(thread) : unified_deviations(thread);
  return {thread.diameter() - by.allowance - by.bolt_diameter,
          pitch_diameter(thread) - by.allowance - by.bolt_pitch_diameter,
          pitch_diameter(thread) + by.hole_pitch_diameter,
          nut_minor_diameter(thread) + by.hole_diameter};
}

}  // namespace fastener
