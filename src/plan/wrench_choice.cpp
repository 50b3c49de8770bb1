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

// Half a graduation and what the wrench may be off by, at the fastener.
Torque may_be_off(const record::Wrench& wrench, Torque setting, double torque_ratio) {
  const Torque half_a_mark = quantity::torque_of(wrench.graduation, wrench.scale.unit) * 0.5;
  return (setting * record::permissible_deviation(wrench).ratio() + half_a_mark) * torque_ratio;
}

std::optional<double> tolerance_used(const Aim& aim, Torque off) {
  if (!aim.low || !aim.high) return std::nullopt;
  return off / ((*aim.high - *aim.low) * 0.5);
}

// Good enough for any other reason to decide.
bool is_good_enough(const WrenchSetting& setting, const Aim& aim, double torque_ratio) {
  const auto& wrench = *setting.wrench;
  const Torque wanted = wanted_setting(wrench, aim, torque_ratio);
  const Torque set = quantity::torque_of(setting.setting, wrench.scale.unit);
  return std::fabs(set / wanted - 1.0) <= aim.fine_enough && !uses_up_tolerance(setting);
}

}  // namespace

bool is_minimum(const Aim& aim) { return aim.low && !aim.high; }

bool is_maximum(const Aim& aim) { return aim.high && !aim.low; }

WrenchSetting set_on(const record::Wrench& wrench, double setting, const Aim& aim,
                     double torque_ratio) {
  const Torque at_wrench = quantity::torque_of(setting, wrench.scale.unit);
  WrenchSetting made{&wrench, setting, at_wrench * torque_ratio};
  made.may_be_off = may_be_off(wrench, at_wrench, torque_ratio);
  made.tolerance_used = tolerance_used(aim, made.may_be_off);
  return made;
}

bool uses_up_tolerance(const WrenchSetting& setting) {
  return setting.tolerance_used && *setting.tolerance_used > kMostOfTolerance;
}

std::string tolerance_used_in_words(const Aim& aim, const WrenchSetting& setting,
                                    quantity::TorqueUnit unit) {
  return fmt::format(
      "{} allows ±{}, and {} may be off by {} of that, more than two thirds",
      quantity::write_rounded(aim.torque, unit),
      quantity::write_rounded((*aim.high - *aim.low) * 0.5, unit, quantity::kUncertaintyDigits),
      setting.wrench->name,
      fmt::format("{} {}", quantity::write_uncertainty(quantity::in_unit(setting.may_be_off, unit)),
                  quantity::name_of(unit)));
}

WrenchChoice::WrenchChoice(const record::Job& job, record::Day day, double torque_ratio)
    : unit_(job.start.unit), day_(day), torque_ratio_(torque_ratio) {
  for (const auto name : record::wrench_names(job)) {
    wrenches_.push_back(record::wrench_on(job, name, day));
  }
}

std::optional<WrenchSetting> WrenchChoice::choose(const Aim& aim,
                                                  const record::Wrench* last_used) const {
  const auto in_its_unit = [&](const WrenchSetting& setting) {
    return aim.stated_in && setting.wrench->scale.unit == *aim.stated_in;
  };
  const auto better = [&](const WrenchSetting& candidate, const WrenchSetting& than) {
    if (candidate.calibration_known != than.calibration_known) return candidate.calibration_known;
    const bool is_good = is_good_enough(candidate, aim, torque_ratio_);
    if (is_good != is_good_enough(than, aim, torque_ratio_)) return is_good;
    if (is_good && in_its_unit(candidate) != in_its_unit(than)) return in_its_unit(candidate);
    return candidate.may_be_off < than.may_be_off;
  };
  std::optional<WrenchSetting> best;
  std::optional<WrenchSetting> in_hand;
  for (const auto* wrench : wrenches_) {
    if (!usable_on(*wrench, day_)) continue;
    const auto setting = rounded_setting(*wrench, aim, torque_ratio_);
    if (!setting || !record::in_range(*wrench, *setting)) continue;
    auto candidate = set_on(*wrench, *setting, aim, torque_ratio_);
    candidate.calibration_known = calibrated(*wrench, day_);
    if (is_minimum(aim) || is_maximum(aim)) {
      candidate.kept_clear_by = record::permissible_deviation(*wrench);
    }
    if (wrench == last_used) in_hand = candidate;
    if (!best || better(candidate, *best)) best = candidate;
  }
  const bool spares_a_change =
      in_hand && in_hand->calibration_known == best->calibration_known &&
      is_good_enough(*in_hand, aim, torque_ratio_) && in_its_unit(*in_hand) == in_its_unit(*best) &&
      (in_hand->may_be_off / best->may_be_off <= kAsFine ||
       (in_hand->tolerance_used && *in_hand->tolerance_used <= kLeavesEnough));
  return spares_a_change ? in_hand : best;
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
