#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "quantity/torque.h"

namespace quantity {

// The units in which manuals and wrench scales state torque.
enum class TorqueUnit {
  NewtonMetre,
  NewtonCentimetre,
  KilonewtonMetre,
  FootPoundForce,
  InchPoundForce,
  KilogramForceMetre,
  KilogramForceCentimetre,
  InchOunceForce,
};

inline constexpr std::array kTorqueUnits = {
    TorqueUnit::NewtonMetre,
    TorqueUnit::NewtonCentimetre,
    TorqueUnit::KilonewtonMetre,
    TorqueUnit::FootPoundForce,
    TorqueUnit::InchPoundForce,
    TorqueUnit::KilogramForceMetre,
    TorqueUnit::KilogramForceCentimetre,
    TorqueUnit::InchOunceForce,
};

// The three that stand side by side wherever a torque is looked up.
inline constexpr std::array kSideBySideUnits = {TorqueUnit::NewtonMetre, TorqueUnit::FootPoundForce,
                                                TorqueUnit::InchPoundForce};

// The one name the program writes: "N·m", "ft·lbf", "in·lbf", ... ON DISK: none ever changes or
// goes.
[[nodiscard]] std::string_view name_of(TorqueUnit unit);

// N·m in one unit, from exact definitions alone: 1 lbf = 4.4482216152605 N, 1 ft = 0.3048 m,
// 1 in = 0.0254 m, 1 kgf = 9.80665 N, 1 ozf = 1/16 lbf.
[[nodiscard]] double newton_metres_per(TorqueUnit unit);

[[nodiscard]] Torque torque_of(double value, TorqueUnit unit);
[[nodiscard]] double in_unit(Torque torque, TorqueUnit unit);

// A value in another unit, correctly rounded where a double product is a bit off: 0.7 N·m are
// 70 cN·m. For an answer that is nothing but the conversion.
[[nodiscard]] double converted(double value, TorqueUnit from, TorqueUnit to);

// Reads a unit as people write it: any case; with or without spaces; parts in either order, joined
// by nothing, '.', '·', '*' or '-'; "lb" for lbf, "kg" for kgf, words and plurals. Nothing for a
// text that is no torque unit.
[[nodiscard]] std::optional<TorqueUnit> read_torque_unit(std::string_view text);

}  // namespace quantity
