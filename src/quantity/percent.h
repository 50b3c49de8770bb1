#pragma once

#include <string>
#include <string_view>

#include "quantity/scalar.h"

namespace quantity {

// A share of something, kept in percent.
class Percent : public Scalar<Percent> {
 public:
  [[nodiscard]] static Percent of_hundred(double value) { return Percent(value); }
  [[nodiscard]] static Percent from_ratio(double ratio) { return Percent(ratio * 100.0); }
  [[nodiscard]] double in_percent() const { return base(); }
  [[nodiscard]] double ratio() const { return base() / 100.0; }

 private:
  using Scalar::Scalar;
  friend class Scalar<Percent>;
};

// Reads "10%", "±10 %", "2.5%": above 0 and below 100; failure::InputError otherwise.
[[nodiscard]] Percent read_percent(std::string_view text);

// "10%": reads back to the same value.
[[nodiscard]] std::string write_exact(Percent percent);

}  // namespace quantity
