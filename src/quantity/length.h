#pragma once

#include <cmath>

#include "quantity/scalar.h"

namespace quantity {

// A length, kept in millimetres. 1 in = 25.4 mm exactly (international inch, 1959).
class Length : public Scalar<Length> {
 public:
  [[nodiscard]] static Length millimetres(double value) { return Length(value); }
  [[nodiscard]] static Length inches(double value) { return Length(value * 25.4); }
  [[nodiscard]] double in_millimetres() const { return base(); }
  [[nodiscard]] double in_inches() const { return base() / 25.4; }

 private:
  using Scalar::Scalar;
  friend class Scalar<Length>;
};

// The same length however it was written: 3.5 in and 88.9 mm differ in the last binary digit alone.
[[nodiscard]] inline bool is_same(Length a, Length b) {
  return std::fabs(a.in_millimetres() - b.in_millimetres()) < 1e-6;
}

}  // namespace quantity
