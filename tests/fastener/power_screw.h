#pragma once

#include <numbers>

#include "fastener/friction.h"
#include "quantity/length.h"

// The nut factor by the textbook's own equation, to hold the program's formulas against.
//   K = dm/(2d) · (tan λ + f sec α)/(1 - f tan λ sec α) + 0.625 fc,   tan λ = l/(π dm), α = 30°
//   d   nominal diameter     dm  mean thread diameter, (d + dr)/2     l   lead: pitch of one start
//   f   thread friction      fc  collar (head) friction               λ   lead angle
// Source: Shigley 9th ed., Eq. 8-26 with T = K F d. The 0.625 holds a hexagon of 1.5 d across flats
// on a hole of d. Loosening turns the sign of tan λ.
struct PowerScrew {
  quantity::Length nominal_diameter;
  quantity::Length mean_diameter;
  quantity::Length lead;
};

// `direction` is +1 to tighten and -1 to loosen.
inline double nut_factor_of(const PowerScrew& screw, const fastener::Friction& friction,
                            double direction) {
  constexpr double kSecant30 = 2.0 / std::numbers::sqrt3;
  const double slope = direction * (screw.lead / screw.mean_diameter) / std::numbers::pi;
  const double grip = friction.thread() * kSecant30;
  return screw.mean_diameter / screw.nominal_diameter / 2.0 * (slope + grip) /
             (1.0 - grip * slope) +
         0.625 * friction.head();
}

inline double tightening_nut_factor(const PowerScrew& screw, const fastener::Friction& friction) {
  return nut_factor_of(screw, friction, 1.0);
}

inline double loosening_nut_factor(const PowerScrew& screw, const fastener::Friction& friction) {
  return nut_factor_of(screw, friction, -1.0);
}
