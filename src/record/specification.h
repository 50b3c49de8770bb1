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

// The limits of a torque target, as torques. `nominal` is the middle of a range and absent for a
// minimum or a maximum; `low` is absent for a maximum, `high` for a minimum. `assumed` tells that
// the source gave no tolerance and the logbook's default was taken.
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
  std::optional<quantity::Angle> by = {};

  bool operator==(const LoosenStep&) const = default;
};
struct AngleWindow {
  quantity::Angle least;
  quantity::Angle most;
  bool assumed = false;  // the source gave none and the logbook's default was taken

  bool operator==(const AngleWindow&) const = default;
};
struct AngleStep {  // turn further; with a window where the source gives one
  quantity::Angle turn;
  std::optional<AngleWindow> window = {};

  bool operator==(const AngleStep&) const = default;
};

// The step's own window, else `spread` to either side of its turn, not below zero, as assumed.
[[nodiscard]] AngleWindow window_of(const AngleStep& step, quantity::Angle spread);

struct RenewStep {  // the fasteners out and new ones in, where the old ones served to settle the
                    // parts
  bool operator==(const RenewStep&) const = default;
};
using TighteningStep = std::variant<TorqueStep, LoosenStep, AngleStep, RenewStep>;

// A tightening procedure as a manual prints it: at least one torque step, first of all and again
// behind every renewal.
struct Specification {
  std::vector<TighteningStep> steps;

  bool operator==(const Specification&) const = default;
};

// The torque a finished fastener was last brought to by torque alone. Absent where the last step is
// an angle or a loosening, and where a torque follows an angle (`61 N·m, +90°, min 122 N·m`): it is
// a check of what the angle reached, and the fastener stands at an unknown torque above it. New
// bolts, and a loosening, fully or at least as far as the angles turned, start afresh.
[[nodiscard]] std::optional<TorqueTarget> final_torque(const Specification& specification);

[[nodiscard]] bool has_angle_step(const Specification& specification);

// Reads what manuals print, steps parted by commas, semicolons, "then" or the plus of an angle:
//   80 N·m   80 N·m ±5%   95 ±5 N·m   90-100 N·m   min 90 N·m   max 12 N·m   160 in·lbf
//   40 N·m, 60 N·m, 80 N·m       60 N·m, +60° (55-65)       40 N·m + 90°, +1/4 turn
//   40 N·m, loosen, 40 N·m, +90°      loosen 360°           80 N·m, repeat 80 N·m
//   50 N·m, new bolts, 50 N·m, +90°   (also "fit new bolts", "renew", "renew bolts")
// Every torque carries its unit; only the two numbers of a range or of value ± amount share one. A
// comma between two digits is a decimal comma. A repeat without a tolerance of its own takes that
// of the step it repeats.
//
// InputError names the step and says what was expected: a number or unit that cannot be read; a
// torque that is not above zero, or lower than the torque just before it, which would do nothing;
// a spread that leaves no window; an angle outside 0 to 1080°, or outside its own window; a first
// step that is no torque; a repeat of nothing; new bolts without a torque behind them; more than 20
// steps or 400 bytes, also once written.
[[nodiscard]] Specification read_specification(std::string_view text);

// The one canonical form; read_specification gives the same value back.
[[nodiscard]] std::string write_exact(const Specification& specification);
[[nodiscard]] std::string write_exact(const TorqueTarget& target);

}  // namespace record
