#include "plan/wrench_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"
#include "quantity/stated_torque.h"

namespace plan {
namespace {

using quantity::Torque;
using record::Calibration;

// What the wrench may be off by, as far as it has to be allowed for.
double allowed_deviation(const record::Wrench& wrench, const Aim& aim) {
  return is_minimum(aim) || is_maximum(aim) ? record::permissible_deviation(wrench).ratio() : 0.0;
}

// The setting that the aim asks for, before it is rounded: a minimum is raised and a maximum
// lowered by what the wrench may be off.
Torque wanted_setting(const record::Wrench& wrench, const Aim& aim, double torque_ratio) {
  const Torque at_limit = aim.torque / torque_ratio;
  const double deviation = allowed_deviation(wrench, aim);
  return is_minimum(aim) ? at_limit / (1.0 - deviation) : at_limit / (1.0 + deviation);
}

// The multiple of the graduation nearest to the aim that keeps within its limits; nothing where no
// multiple does.
std::optional<double> rounded_setting(const record::Wrench& wrench, const Aim& aim,
                                      double torque_ratio) {
  const auto unit = wrench.scale.unit;
  const double deviation = allowed_deviation(wrench, aim);
  const double wanted =
      quantity::in_unit(wanted_setting(wrench, aim, torque_ratio), unit) / wrench.graduation;
  const auto within = [&](double steps) {
    const Torque setting = quantity::torque_of(record::scale_mark(wrench, steps), unit);
    const Torque applied = setting * torque_ratio;
    // A hair of slack, so that a limit that is itself a graduation mark counts as within.
    const Torque slack = applied * 1e-9;
    return (!aim.low || applied * (1.0 - deviation) + slack >= *aim.low) &&
           (!aim.high || applied * (1.0 + deviation) - slack <= *aim.high);
  };
  for (const double steps : {std::round(wanted), std::floor(wanted), std::ceil(wanted)}) {
    if (within(steps)) return record::scale_mark(wrench, steps);
  }
  return std::nullopt;
}

bool calibrated(const record::Wrench& wrench, record::Day day) {
  return record::calibration_on(wrench, day) == Calibration::Valid;
}

bool usable_on(const record::Wrench& wrench, record::Day day) {
  return calibrated(wrench, day) || record::calibration_on(wrench, day) == Calibration::Unknown;
}

Torque graduation_of(const record::Wrench& wrench) {
  return quantity::torque_of(wrench.graduation, wrench.scale.unit);
}

bool is_fine_enough(const record::Wrench& wrench, const Aim& aim, double torque_ratio) {
  const auto setting = rounded_setting(wrench, aim, torque_ratio);
  if (!setting) return false;
  const Torque wanted = wanted_setting(wrench, aim, torque_ratio);
  return std::fabs(quantity::torque_of(*setting, wrench.scale.unit) / wanted - 1.0) <=
         aim.fine_enough;
}

}  // namespace

bool is_minimum(const Aim& aim) { return aim.low && !aim.high; }

bool is_maximum(const Aim& aim) { return aim.high && !aim.low; }

WrenchChoice::WrenchChoice(const record::Job& job, record::Day day, double torque_ratio)
    : unit_(job.start.unit), day_(day), torque_ratio_(torque_ratio) {
  for (const auto name : record::wrench_names(job)) {
    wrenches_.push_back(record::wrench_on(job, name, day));
  }
}

std::optional<WrenchSetting> WrenchChoice::choose(const Aim& aim,
                                                  const record::Wrench* last_used) const {
  std::optional<WrenchSetting> best;
  const auto better = [&](const record::Wrench& candidate, const record::Wrench& than) {
    const bool known = calibrated(candidate, day_);
    if (known != calibrated(than, day_)) return known;
    const bool fine = is_fine_enough(candidate, aim, torque_ratio_);
    if (fine != is_fine_enough(than, aim, torque_ratio_)) return fine;
    const auto in_its_unit = [&](const record::Wrench& wrench) {
      return aim.stated_in && wrench.scale.unit == *aim.stated_in;
    };
    if (fine && in_its_unit(candidate) != in_its_unit(than)) return in_its_unit(candidate);
    if (fine && (&candidate == last_used || &than == last_used)) return &candidate == last_used;
    return graduation_of(candidate) < graduation_of(than);
  };
  for (const auto* wrench : wrenches_) {
    if (!usable_on(*wrench, day_)) continue;
    const auto setting = rounded_setting(*wrench, aim, torque_ratio_);
    if (!setting || !record::in_range(*wrench, *setting)) continue;
    if (best && !better(*wrench, *best->wrench)) continue;
    const Torque at_wrench = quantity::torque_of(*setting, wrench->scale.unit);
    best = WrenchSetting{wrench, *setting, at_wrench * torque_ratio_, calibrated(*wrench, day_)};
    if (is_minimum(aim) || is_maximum(aim)) {
      best->kept_clear_by = record::permissible_deviation(*wrench);
    }
  }
  return best;
}

bool WrenchChoice::covers(const Aim& aim) const {
  return std::ranges::any_of(wrenches_, [&](const record::Wrench* wrench) {
    const auto setting = rounded_setting(*wrench, aim, torque_ratio_);
    return setting && record::in_range(*wrench, *setting);
  });
}

std::string WrenchChoice::what_is_missing(const Aim& aim) const {
  const Torque low = aim.low.value_or(aim.torque * 0.9) / torque_ratio_;
  const Torque high = aim.high.value_or(aim.torque * 1.1) / torque_ratio_;
  std::string text = fmt::format("no wrench here can do {}{}; one covering {} to {} is needed",
                                 quantity::write_rounded(aim.torque, unit_),
                                 torque_ratio_ == 1.0 ? "" : " through the adapter",
                                 quantity::write_rounded(quantity::in_unit(low, unit_)),
                                 quantity::write_rounded(high, unit_));
  for (const auto* wrench : wrenches_) {
    const auto setting = rounded_setting(*wrench, aim, torque_ratio_);
    const bool covers = setting && record::in_range(*wrench, *setting);
    if (covers && !usable_on(*wrench, day_)) {
      text += fmt::format("; {} covers it but is out of calibration", wrench->name);
    }
  }
  return text;
}

}  // namespace plan
