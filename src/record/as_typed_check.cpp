#include "record/as_typed_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "quantity/length_text.h"
#include "quantity/number_text.h"
#include "quantity/volume_text.h"

namespace record {
namespace {

// After a way through other units and back.
bool is_near(double a, double b) {
  constexpr double kShare = 1e-9;
  return std::fabs(a - b) <= kShare * std::max({1.0, std::fabs(a), std::fabs(b)});
}

// Holds `is_same` of what `read` makes of the text; `kept` writes what was kept where it is not,
// and is empty where nothing was.
template <class Kept, class Read, class IsSame>
void check_typed(const std::string& typed, const Kept& kept, const Read& read,
                 const IsSame& is_same) {
  if (typed.empty()) return;
  bool same = false;
  try {
    same = is_same(read(typed));
  } catch (const failure::InputError&) {
    same = false;
  }
  if (same) return;
  const std::string text = kept();
  throw failure::InputError(fmt::format("typed as {} and kept as {}, which is not the same",
                                        quantity::quoted(typed),
                                        text.empty() ? std::string("nothing") : text));
}

void check_length(const std::string& typed, const std::optional<quantity::Length>& length) {
  check_typed(
      typed, [&] { return length ? quantity::write_exact(*length) : std::string(); },
      quantity::read_length,
      [&](quantity::Length read) {
        return length && is_near(read.in_millimetres(), length->in_millimetres());
      });
}

void check_percent(const std::string& typed, const std::optional<quantity::Percent>& percent) {
  check_typed(
      typed, [&] { return percent ? quantity::write_exact(*percent) : std::string(); },
      quantity::read_percent,
      [&](quantity::Percent read) {
        return percent && is_near(read.in_percent(), percent->in_percent());
      });
}

bool is_same_reading(const SettingReading& a, const SettingReading& b) {
  if (!is_near(a.setting, b.setting) || a.mark != b.mark) return false;
  if (a.offset.has_value() != b.offset.has_value()) return false;
  return !a.offset || is_near(a.offset->in_degrees(), b.offset->in_degrees());
}

void check_readings(const std::string& typed, const std::string& radius_typed,
                    const std::vector<SettingReading>& readings) {
  check_typed(
      typed, [&] { return write_exact(readings); },
      [&](const std::string& text) {
        std::optional<quantity::Length> radius;
        if (!radius_typed.empty()) radius = quantity::read_length(radius_typed);
        return read_readings(text, radius);
      },
      [&](const std::vector<SettingReading>& read) {
        return std::equal(read.begin(), read.end(), readings.begin(), readings.end(),
                          is_same_reading);
      });
}

void check_adapter(const ThroughAdapter& adapter) {
  const auto& told = told_of(adapter);
  check_typed(
      told.extension_typed, [&] { return fmt::format("a ratio of {}", adapter.torque_ratio); },
      [&](const std::string& extension) {
        return read_adapter(extension, told.wrench_length_typed, told.angle_typed);
      },
      [&](const ThroughAdapter& read) {
        return told.measures && is_near(read.torque_ratio, adapter.torque_ratio);
      });
}

}  // namespace

void check_as_typed(const LogbookStart& start) {
  check_percent(start.tolerance_typed, start.default_tolerance);
  check_percent(start.method_typed, start.method_error);
  check_typed(
      start.angle_typed, [&] { return quantity::write_exact(start.angle_window); },
      quantity::read_angle,
      [&](quantity::Angle read) {
        return is_near(read.in_degrees(), start.angle_window.in_degrees());
      });
}

void check_as_typed(const Wrench& wrench) {
  check_typed(
      wrench.scale_typed, [&] { return write_exact(wrench.scale); }, read_scale,
      [&](const WrenchScale& read) {
        return read.unit == wrench.scale.unit && is_near(read.low, wrench.scale.low) &&
               is_near(read.high, wrench.scale.high);
      });
  check_typed(
      wrench.graduation_typed, [&] { return quantity::write_exact(wrench.graduation); },
      [&](const std::string& text) { return read_graduation(text, wrench.scale); },
      [&](double read) { return is_near(read, wrench.graduation); });
  check_percent(wrench.accuracy_typed, wrench.accuracy);
}

void check_as_typed(const Joint& joint) {
  check_length(joint.length_typed, joint.length);
  check_length(joint.engaged_typed, joint.engaged);
  check_length(joint.face_typed, joint.face);
}

void check_as_typed(const Specified& specified) {
  check_typed(
      specified.typed, [&] { return write_exact(specified.procedure); }, read_specification,
      [&](const Specification& read) { return read == specified.procedure; });
}

void check_as_typed(const Removal& removal) {
  check_length(removal.other_length_typed, removal.other_length);
}

void check_as_typed(const Pull& pull) { check_readings(pull.typed, "", {pull.reading}); }

void check_as_typed(const Measured& measured) {
  check_readings(measured.readings_typed, measured.radius_typed, measured.readings);
  check_adapter(measured.adapter);
}

void check_as_typed(const Tightening& tightening) { check_adapter(tightening.adapter); }

void check_as_typed(const FluidAmount& amount) {
  check_typed(
      amount.typed, [&] { return quantity::write_rounded(amount.amount); }, quantity::read_volume,
      [&](quantity::Volume read) {
        return is_near(read.in_millilitres(), amount.amount.in_millilitres());
      });
}

}  // namespace record
