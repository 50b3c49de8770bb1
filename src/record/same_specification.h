#pragma once

#include "record/specification.h"

namespace record {

// Two documents print one torque in two units and round it: 80 N·m is 59 ft·lbf. So much may their
// limits differ and still be the same: own choice, no source; half a unit of the last digit of 59
// is 0.8 %.
inline constexpr double kRounding = 0.008;

// Whether both procedures ask for the same: the same steps, every limit of every torque within
// kRounding. A torque without a tolerance has the default one.
[[nodiscard]] bool ask_the_same(const Specification& a, const Specification& b,
                                quantity::Percent default_tolerance);

}  // namespace record
