#include "finding/unit_slip.h"

#include <cmath>
#include <utility>

#include "quantity/torque_unit.h"

namespace finding {

std::optional<UnitSlip> unit_slip(double ratio, double tolerance) {
  using quantity::TorqueUnit;
  static constexpr std::pair<TorqueUnit, TorqueUnit> kConfused[] = {
      {TorqueUnit::NewtonMetre, TorqueUnit::FootPoundForce},
      {TorqueUnit::FootPoundForce, TorqueUnit::InchPoundForce},
      {TorqueUnit::NewtonMetre, TorqueUnit::InchPoundForce},
      {TorqueUnit::NewtonMetre, TorqueUnit::KilogramForceMetre},
      {TorqueUnit::FootPoundForce, TorqueUnit::KilogramForceMetre},
  };
  std::optional<UnitSlip> nearest;
  double nearest_miss = std::log1p(tolerance);
  const auto consider = [&](TorqueUnit meant, TorqueUnit taken) {
    // A number meant in one unit and taken in the other becomes this many times the torque.
    const double factor = quantity::newton_metres_per(taken) / quantity::newton_metres_per(meant);
    const double miss = std::fabs(std::log(ratio / factor));
    if (miss > nearest_miss) return;
    nearest_miss = miss;
    nearest = UnitSlip{std::string(quantity::name_of(meant)), std::string(quantity::name_of(taken)),
                       factor};
  };
  if (!(ratio > 0.0)) return std::nullopt;
  for (const auto& [one, other] : kConfused) {
    consider(one, other);
    consider(other, one);
  }
  return nearest;
}

}  // namespace finding
