#pragma once

#include "quantity/length.h"

namespace quantity {

// A cross section, kept in square millimetres. 1 in² = 645.16 mm² exactly.
class Area : public Scalar<Area> {
 public:
  [[nodiscard]] static Area square_millimetres(double value) { return Area(value); }
  [[nodiscard]] double in_square_millimetres() const { return base(); }
  [[nodiscard]] double in_square_inches() const { return base() / 645.16; }

 private:
  using Scalar::Scalar;
  friend class Scalar<Area>;
};

}  // namespace quantity
