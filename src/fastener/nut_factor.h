#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/origin.h"
#include "quantity/force.h"
#include "quantity/length.h"
#include "quantity/torque.h"

namespace fastener {

// The short form T = K d F, all friction in one number.
//   T  torque     d  nominal diameter     F  preload     K  nut factor, no unit
// Source: Shigley 9th ed., Eq. 8-27. K is a test result for one size, finish and lubricant: the
// published means reach from 0.086 to 0.52. K is above 0 and below 1 here; InputError otherwise, or
// for a diameter that is not above zero.
[[nodiscard]] quantity::Torque torque_by_nut_factor(double nut_factor, quantity::Length diameter,
                                                    quantity::Force preload);
[[nodiscard]] quantity::Force preload_by_nut_factor(double nut_factor, quantity::Length diameter,
                                                    quantity::Torque torque);

// The K that a measured torque and preload show; InputError for a preload not above zero.
[[nodiscard]] double nut_factor_from_test(quantity::Torque torque, quantity::Length diameter,
                                          quantity::Force preload);

struct NutFactorBand {
  double low = 0.0;
  double typical = 0.0;
  double high = 0.0;
  Origin origin;
};

// The band for a condition, steel on steel. Nothing for a threadlocker, as in friction.h.
[[nodiscard]] std::optional<NutFactorBand> nut_factor_band(Condition condition);

}  // namespace fastener
