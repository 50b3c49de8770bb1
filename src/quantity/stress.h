#pragma once

#include "quantity/area.h"
#include "quantity/force.h"

namespace quantity {

// Force over an area, kept in megapascals (N/mm²). 1 ksi = 1000 lbf/in².
class Stress : public Scalar<Stress> {
 public:
  [[nodiscard]] static Stress megapascals(double value) { return Stress(value); }
  [[nodiscard]] static Stress kips_per_square_inch(double value) {
    return Stress(value * kMegapascalsPerKsi);
  }
  [[nodiscard]] double in_megapascals() const { return base(); }
  [[nodiscard]] double in_kips_per_square_inch() const { return base() / kMegapascalsPerKsi; }

 private:
  static constexpr double kMegapascalsPerKsi = 4448.2216152605 / 645.16;
  using Scalar::Scalar;
  friend class Scalar<Stress>;
};

[[nodiscard]] inline Force operator*(Stress stress, Area area) {
  return Force::newtons(stress.in_megapascals() * area.in_square_millimetres());
}
[[nodiscard]] inline Stress operator/(Force force, Area area) {
  return Stress::megapascals(force.in_newtons() / area.in_square_millimetres());
}

}  // namespace quantity
