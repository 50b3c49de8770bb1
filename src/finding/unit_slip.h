#pragma once

#include <optional>
#include <string>

namespace finding {

// A confusion of torque units that would explain a ratio between two torques.
struct UnitSlip {
  std::string meant;    // the unit in which the number was probably meant
  std::string taken;    // the unit in which it was taken
  double factor = 1.0;  // what the confusion makes of a torque
};

// The slip whose factor lies within `tolerance` (a share, 0.06 as default) of `ratio`: N·m against
// ft·lbf (1.356, 0.738), ft·lbf against in·lbf (12, 1/12), N·m against in·lbf (8.851, 0.113) and
// kgf·m against N·m (9.807, 0.102), kgf·m against ft·lbf (7.233, 0.138), all from the exact unit
// definitions. The nearest one; nothing where none fits. It is a hint: other causes can give the
// same ratio.
[[nodiscard]] std::optional<UnitSlip> unit_slip(double ratio, double tolerance = 0.06);

// A ratio this near to that of two units hardly comes by chance: own choice, no source.
inline constexpr double kCloseToSlip = 0.03;

}  // namespace finding
