#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "quantity/angle.h"
#include "quantity/percent.h"
#include "quantity/stated_torque.h"

namespace record {

// What a torque step asks for, in the words and the unit of its source.
struct TorqueTarget {
  enum class Form {
    Nominal,    // 80 N·m                 value
    Percent,    // 80 N·m ±5%             value, spread in percent
    PlusMinus,  // 95 ±5 N·m              value, spread in the same unit
    Range,      // 90-100 N·m             value is the lower end, spread the upper end
    Minimum,    // min 90 N·m             value
    Maximum,    // max 12 N·m             value
  };
  Form form = Form::Nominal;
  double value = 0.0;
  double spread = 0.0;  // 0 where the form has none
  quantity::TorqueUnit unit = quantity::TorqueUnit::NewtonMetre;

  bool operator==(const TorqueTarget&) const = default;
};

// The limits of a torque target. `nominal` is the middle of a range and absent for a minimum or a
// maximum; `low` is absent for a maximum, `high` for a minimum. `assumed` tells that the source
// gave no tolerance and the logbook's default was taken.
struct ToleranceWindow {
  std::optional<quantity::Torque> low;
  std::optional<quantity::Torque> nominal;
  std::optional<quantity::Torque> high;
  bool assumed = false;
};

[[nodiscard]] ToleranceWindow window_of(const TorqueTarget& target,
                                        quantity::Percent default_tolerance);

struct TorqueStep {
  TorqueTarget target;
  bool repeat = false;  // the same value once more, after a step that reached it

  bool operator==(const TorqueStep&) const = default;
};
struct LoosenStep {  // fully, or by the stated angle
  std::optional<quantity::Angle> by;

  bool operator==(const LoosenStep&) const = default;
};
struct AngleStep {  // turn further; with a window where the source gives one
  quantity::Angle turn;
  std::optional<quantity::Angle> least;
  std::optional<quantity::Angle> most;

  bool operator==(const AngleStep&) const = default;
};
using TighteningStep = std::variant<TorqueStep, LoosenStep, AngleStep>;

// A tightening procedure as a manual prints it: at least one torque step, first of all.
struct Specification {
  std::vector<TighteningStep> steps;

  bool operator==(const Specification&) const = default;
};

// The torque a finished fastener was last brought to by torque alone: the last torque step. Absent
// where an angle step follows it, since a later torque reading says nothing about such a joint.
[[nodiscard]] std::optional<TorqueTarget> final_torque(const Specification& specification);

[[nodiscard]] bool has_angle_step(const Specification& specification);

// Reads what manuals print, steps parted by commas, semicolons or "then":
//   80 N·m   80 N·m ±5%   95 ±5 N·m   90-100 N·m   min 90 N·m   max 12 N·m   160 in·lbf
//   40 N·m, 60 N·m, 80 N·m       60 N·m, +60° (55-65)       40 N·m, +90°, +90°
//   40 N·m, loosen, 40 N·m, +90°        80 N·m, repeat 80 N·m
// A comma between two digits is a decimal comma. InputError names the step that cannot be read,
// what was expected and, where a unit is missing, the accepted units.
[[nodiscard]] Specification read_specification(std::string_view text);

// The one canonical form; read_specification gives the same value back.
[[nodiscard]] std::string write_exact(const Specification& specification);
[[nodiscard]] std::string write_exact(const TorqueTarget& target);

}  // namespace record
