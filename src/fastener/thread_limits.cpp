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

// The end of the standard's range of diameters, and the geometric mean of the range.
struct DiameterRange {
  double end;
  double middle;
};

DiameterRange range_of(double diameter_mm) {
  constexpr std::array kEnds = {1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0};
  std::size_t i = 1;
  while (i + 1 < kEnds.size() && diameter_mm > kEnds.at(i)) ++i;
  return {kEnds.at(i), std::sqrt(kEnds.at(i - 1) * kEnds.at(i))};
}

// The nearest of the preferred numbers R40 (ISO 3), the larger one of two that are as near, and to
// whole micrometres.
double to_preferred(double micrometres) {
  constexpr std::array kR40 = {100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212,
                               224, 236, 250, 265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475,
                               500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950, 1000};
  const double scale = std::pow(10.0, std::floor(std::log10(micrometres)) - 2.0);
  double nearest = kR40.front();
  for (const double preferred : kR40) {
    if (std::fabs(preferred - micrometres / scale) <= std::fabs(nearest - micrometres / scale)) {
      nearest = preferred;
    }
  }
  return std::nearbyint(nearest * scale);  // 31.5 is printed 32, 26.5 is 26
}

// Where the published tables depart from the nearest preferred number.
struct Departure {
  double range_end;
  double pitch;
  double micrometres;
};
constexpr std::array kBoltPitchDiameter = {Departure{5.6, 0.5, 75.0}};
constexpr std::array kHolePitchDiameter = {Departure{5.6, 0.5, 100.0}, Departure{11.2, 1.5, 180.0},
                                           Departure{22.4, 1.25, 180.0},
                                           Departure{22.4, 1.5, 190.0}};

template <std::size_t N>
double as_printed(const std::array<Departure, N>& departures, const DiameterRange& range,
                  double pitch, double by_formula) {
  for (const auto& departure : departures) {
    if (departure.range_end == range.end && departure.pitch == pitch) return departure.micrometres;
  }
  return to_preferred(by_formula);
}

Deviations metric_deviations(const Thread& thread) {
  constexpr double kPitchOfOddAllowance = 0.75;  // 23.25 is printed 22
  const double pitch = thread.pitch().in_millimetres();
  const auto range = range_of(thread.diameter().in_millimetres());
  const auto micrometres = [](double value) { return Length::millimetres(value / 1000.0); };
  const double allowance = pitch == kPitchOfOddAllowance ? 22.0 : to_preferred(15.0 + 11.0 * pitch);
  const double pitch_diameter_tolerance = 90.0 * std::pow(pitch, 0.4) * std::pow(range.middle, 0.1);
  return {
      micrometres(allowance),
      micrometres(to_preferred(180.0 * std::cbrt(pitch * pitch) - 3.15 / std::sqrt(pitch))),
      micrometres(as_printed(kBoltPitchDiameter, range, pitch, pitch_diameter_tolerance)),
      micrometres(as_printed(kHolePitchDiameter, range, pitch, 1.32 * pitch_diameter_tolerance)),
      micrometres(to_preferred(pitch < 1.0 ? 433.0 * pitch - 190.0 * std::pow(pitch, 1.22)
                                           : 230.0 * std::pow(pitch, 0.7)))};
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
