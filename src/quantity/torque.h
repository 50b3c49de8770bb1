#pragma once

#include "quantity/scalar.h"

namespace quantity {

// A moment about a fastener's axis, kept in N·m; other units in torque_unit.h. It may be negative
// inside a formula (a difference); text read from a person never is.
class Torque : public Scalar<Torque> {
 public:
  [[nodiscard]] static Torque newton_metres(double value) { return Torque(value); }
  [[nodiscard]] double in_newton_metres() const { return base(); }

 private:
  using Scalar::Scalar;
  friend class Scalar<Torque>;
};

}  // namespace quantity
