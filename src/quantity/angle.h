#pragma once

#include <numbers>

#include "quantity/scalar.h"

namespace quantity {

// A rotation of the fastener, kept in degrees; positive tightens.
class Angle : public Scalar<Angle> {
 public:
  [[nodiscard]] static Angle degrees(double value) { return Angle(value); }
  [[nodiscard]] static Angle radians(double value) {
    return Angle(value * 180.0 / std::numbers::pi);
  }
  [[nodiscard]] double in_degrees() const { return base(); }
  [[nodiscard]] double in_radians() const { return base() * std::numbers::pi / 180.0; }

 private:
  using Scalar::Scalar;
  friend class Scalar<Angle>;
};

}  // namespace quantity
