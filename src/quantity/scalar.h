#pragma once

#include <cmath>
#include <compare>

#include "failure/failure.h"

namespace quantity {

// The arithmetic that every measure shares. `Measure` derives from it and adds builders and
// readers that name the unit, so no measure converts from or to a bare number and two different
// measures neither add nor compare. NaN and infinity are refused when a value is built or computed
// (InputError): SQLite would quietly store NaN as NULL.
template <class Measure>
class Scalar {
 public:
  friend auto operator<=>(const Scalar& a, const Scalar& b) { return a.base_ <=> b.base_; }
  friend bool operator==(const Scalar&, const Scalar&) = default;

  friend Measure operator+(Measure a, Measure b) { return made(a.base_ + b.base_); }
  friend Measure operator-(Measure a, Measure b) { return made(a.base_ - b.base_); }
  friend Measure operator*(Measure a, double factor) { return made(a.base_ * factor); }
  friend Measure operator*(double factor, Measure a) { return made(a.base_ * factor); }
  friend Measure operator/(Measure a, double divisor) { return made(a.base_ / divisor); }
  friend double operator/(Measure a, Measure b) { return a.base_ / b.base_; }

 protected:
  explicit Scalar(double in_base_unit) : base_(in_base_unit) {
    if (!std::isfinite(in_base_unit)) {
      throw failure::InputError(
          "a quantity came out as not a number or infinite; expected a finite value");
    }
  }

  [[nodiscard]] double base() const { return base_; }

 private:
  static Measure made(double in_base_unit) { return Measure(in_base_unit); }

  double base_;
};

}  // namespace quantity
