#include "record/wrench.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"
#include "record/as_typed.h"

namespace record {

using failure::InputError;
using quantity::quoted;

double least_setting(const Wrench& wrench) {
  return wrench.scale.low > 0.0 ? wrench.scale.low : 0.2 * wrench.scale.high;
}

bool is_on_scale(const Wrench& wrench, double setting) {
  return setting >= wrench.scale.low && setting <= wrench.scale.high;
}

std::string not_on_scale(const Wrench& wrench, double setting) {
  return fmt::format("{} cannot be set to {}: its scale is {}", wrench.name,
                     quantity::write_exact(quantity::StatedTorque{setting, wrench.scale.unit}),
                     write_exact(wrench.scale));
}

double scale_mark(const Wrench& wrench, double number) {
  return std::round(number * wrench.graduation * 1e9) / 1e9;
}

bool on_mark(const Wrench& wrench, double setting) {
  constexpr double kMarkRounding = 1e-6;  // of a graduation, as marks are rounded (scale_mark)
  const auto whole = [&](double from_origin) {
    const double marks = from_origin / wrench.graduation;
    return std::fabs(marks - std::round(marks)) <= kMarkRounding;
  };
  return whole(setting) || whole(setting - wrench.scale.low);
}

bool in_range(const Wrench& wrench, double setting) {
  return setting >= least_setting(wrench) && setting <= wrench.scale.high;
}

bool in_range(const Wrench& wrench, const quantity::StatedTorque& setting) {
  return in_range(wrench, setting.unit == wrench.scale.unit
                              ? setting.value
                              : quantity::in_unit(setting.torque(), wrench.scale.unit));
}

double setting_on(const Wrench& wrench, const TypedSetting& typed) {
  if (typed.unit && *typed.unit != wrench.scale.unit) {
    throw InputError(
        fmt::format("{}: the scale of {} is in {}; give the setting as it stands there, such as {}",
                    quantity::write_exact(quantity::StatedTorque{typed.value, *typed.unit}),
                    wrench.name, quantity::name_of(wrench.scale.unit),
                    quantity::write_exact(quantity::StatedTorque{
                        scale_mark(wrench, std::round(wrench.scale.high * 0.5 / wrench.graduation)),
                        wrench.scale.unit})));
  }
  return typed.value;
}

quantity::Percent permissible_deviation(const Wrench& wrench) {
  return wrench.accuracy ? *wrench.accuracy : deviation_by_standard(wrench);
}

quantity::Percent deviation_by_standard(const Wrench& wrench) {
  const auto maximum = quantity::torque_of(wrench.scale.high, wrench.scale.unit);
  const bool wide = maximum.in_newton_metres() <= 10.0 || wrench.kind == WrenchKind::Indicating;
  return quantity::Percent::of_hundred(wide ? 6.0 : 4.0);
}

bool was_out_of_tolerance(const Wrench& wrench) {
  return wrench.found_off &&
         *wrench.found_off > std::min(permissible_deviation(wrench), deviation_by_standard(wrench));
}

std::optional<Day> calibration_ends(const Wrench& wrench) {
  if (!wrench.calibrated) return std::nullopt;
  return months_after(*wrench.calibrated, wrench.valid_months);
}

Calibration calibration_on(const Wrench& wrench, Day day) {
  const auto ends = calibration_ends(wrench);
  if (!ends) return Calibration::Unknown;
  if (day < *wrench.calibrated) return Calibration::NotYet;
  return day <= *ends ? Calibration::Valid : Calibration::Expired;
}

bool is_out_of_calibration(const Wrench& wrench, Day day) {
  const auto calibration = calibration_on(wrench, day);
  return calibration == Calibration::Expired || calibration == Calibration::NotYet;
}

WrenchScale read_scale(std::string_view text) {
  const auto low = quantity::read_leading_number(text, text);
  std::string_view rest = low.rest;
  bool parted = false;
  for (const std::string_view mark : {"..", "-", "\u2013", "to "}) {
    if (rest.starts_with(mark)) {
      rest.remove_prefix(mark.size());
      parted = true;
      break;
    }
  }
  if (!parted) {
    throw InputError(
        fmt::format("{}: expected both ends of the scale, such as \"20..200 N·m\"", quoted(text)));
  }
  const auto high = quantity::read_torque(rest);
  if (high.value <= low.value) {
    throw InputError(fmt::format("{}: the upper end must be above the lower end", quoted(text)));
  }
  return {low.value, high.value, high.unit};
}

std::string write_exact(const WrenchScale& scale) {
  return fmt::format("{}..{} {}", quantity::write_exact(scale.low),
                     quantity::write_exact(scale.high), quantity::name_of(scale.unit));
}

double read_graduation(std::string_view text, const WrenchScale& scale) {
  const auto stated = quantity::read_torque(text);
  const double value =
      stated.unit == scale.unit ? stated.value : quantity::in_unit(stated.torque(), scale.unit);
  if (value <= 0.0 || value > scale.high / 5.0) {
    throw InputError(
        fmt::format("{}: a graduation must be above zero and at most a fifth of the scale {}",
                    quoted(text), write_exact(scale)));
  }
  return value;
}

int read_months(std::string_view text) {
  const auto number = quantity::read_leading_number(text, text);
  const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
    return std::ranges::find(words, number.rest) != words.end();
  };
  const int factor = is_one_of({"mo", "month", "months"}) ? 1
                     : is_one_of({"y", "year", "years"})  ? 12
                                                          : 0;
  const double months = number.value * factor;
  if (months < 1.0 || months > kMostMonths || months != static_cast<int>(months)) {
    throw InputError(
        fmt::format("{}: expected whole months from 1 to 120, such as 12mo or 1y", quoted(text)));
  }
  return static_cast<int>(months);
}

std::string scale_text(const Wrench& wrench) {
  return as_typed(wrench.scale_typed, std::optional(wrench.scale));
}

std::string graduation_text(const Wrench& wrench) {
  return as_typed(wrench.graduation_typed,
                  std::optional(quantity::StatedTorque{wrench.graduation, wrench.scale.unit}));
}

std::string accuracy_text(const Wrench& wrench) {
  return as_typed(wrench.accuracy_typed, wrench.accuracy);
}

}  // namespace record
