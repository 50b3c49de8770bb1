#pragma once

#include "fastener/friction.h"
#include "quantity/length.h"

namespace fastener {

// The nut factor from friction by the full power-screw equation.
//   K = dm/(2d) · (tan λ + f sec α)/(1 - f tan λ sec α) + 0.625 fc,   tan λ = l/(π dm), α = 30°
//   d   nominal diameter     dm  mean thread diameter, (d + dr)/2     l   lead: pitch of one start
//   f   thread friction      fc  collar (head) friction               λ   lead angle
// Source: Shigley 9th ed., Eq. 8-26 with T = K F d. The 0.625 holds a hexagon of 1.5 d across flats
// on a hole of d. Loosening turns the sign of tan λ.
// Where tightening.h takes the pitch diameter and a measured bearing face, this takes what the
// textbook takes; the two differ by a few per cent.
// InputError for lengths that are not above zero or where the thread would lock in itself
// (f tan λ sec α at or above 1).
struct PowerScrew {
  quantity::Length nominal_diameter;
  quantity::Length mean_diameter;
  quantity::Length lead;
};

[[nodiscard]] double tightening_nut_factor(const PowerScrew& screw, const Friction& friction);
[[nodiscard]] double loosening_nut_factor(const PowerScrew& screw, const Friction& friction);

}  // namespace fastener
