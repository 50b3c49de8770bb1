#include "fastener/power_screw.h"

#include <numbers>

#include "failure/failure.h"

namespace fastener {
namespace {

// `direction` is +1 to tighten and -1 to loosen.
double nut_factor(const PowerScrew& screw, const Friction& friction, double direction) {
  const auto above_zero = [](quantity::Length length) { return length.in_millimetres() > 0.0; };
  if (!above_zero(screw.nominal_diameter) || !above_zero(screw.mean_diameter) ||
      !above_zero(screw.lead)) {
    throw failure::InputError("expected diameters and a lead above zero");
  }
  constexpr double kSecant30 = 2.0 / std::numbers::sqrt3;
  constexpr double kCollar = 0.625;
  const double slope = direction * (screw.lead / screw.mean_diameter) / std::numbers::pi;
  const double grip = friction.thread() * kSecant30;
  if (grip * slope >= 1.0) {
    throw failure::InputError("a thread this steep and this rough cannot be turned");
  }
  return screw.mean_diameter / screw.nominal_diameter / 2.0 * (slope + grip) /
             (1.0 - grip * slope) +
         kCollar * friction.head();
}

}  // namespace

double tightening_nut_factor(const PowerScrew& screw, const Friction& friction) {
  return nut_factor(screw, friction, 1.0);
}

double loosening_nut_factor(const PowerScrew& screw, const Friction& friction) {
  return nut_factor(screw, friction, -1.0);
}

}  // namespace fastener
