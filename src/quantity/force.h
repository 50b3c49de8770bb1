#pragma once

#include "quantity/length.h"
#include "quantity/torque.h"

namespace quantity {

// A force along a fastener's axis, kept in newtons. 1 lbf = 4.4482216152605 N exactly
// (0.45359237 kg at standard gravity 9.80665 m/s²).
class Force : public Scalar<Force> {
 public:
  [[nodiscard]] static Force newtons(double value) { return Force(value); }
  [[nodiscard]] static Force pounds_force(double value) { return Force(value * kNewtonsPerPound); }
  [[nodiscard]] double in_newtons() const { return base(); }
  [[nodiscard]] double in_pounds_force() const { return base() / kNewtonsPerPound; }

 private:
  static constexpr double kNewtonsPerPound = 4.4482216152605;
  using Scalar::Scalar;
  friend class Scalar<Force>;
};

// Force on a lever arm: 1 N · 1 mm = 0.001 N·m.
[[nodiscard]] inline Torque operator*(Force force, Length arm) {
  return Torque::newton_metres(force.in_newtons() * arm.in_millimetres() / 1000.0);
}

}  // namespace quantity
