#include "finding/what_would_help.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "finding/verdict.h"

namespace finding {
namespace {

using quantity::Percent;
using quantity::Torque;

constexpr double kFinestStep = 0.01;  // of the torque
constexpr double kBetterAccuracies[] = {3.0, 2.0, 1.0};

double setting_for(const Tested& tested, Torque torque) {
  return quantity::in_unit(torque, tested.measured.unit) / tested.measured.adapter.torque_ratio;
}

// The graduation in the unit of the readings, which the wrench's scale may no longer have.
double graduation_of(const Tested& tested) {
  const auto& wrench = tested.wrench;
  if (wrench.scale.unit == tested.measured.unit) return wrench.graduation;
  return quantity::in_unit(quantity::torque_of(wrench.graduation, wrench.scale.unit),
                           tested.measured.unit);
}

// The largest multiple of the graduation that is no more than `step`; zero where there is none.
double graduated(double step, double graduation) {
  return std::floor(step / graduation * (1.0 + 1e-12)) * graduation;
}

// The largest of 1, 2, 5 times a power of ten that is no more than `step`.
double round_step(double step) {
  const double power = std::pow(10.0, std::floor(std::log10(step)));
  for (const double digit : {5.0, 2.0}) {
    if (digit * power <= step) return digit * power;
  }
  return power;
}

// Between which settings the mark lined up; for a line that stops short of it, up to where it
// would.
struct Between {
  double from = 0.0;
  double to = 0.0;
};
Between settings_around(const Tested& tested) {
  const auto& readings = tested.measured.readings;
  const auto at = std::ranges::find_if(readings, record::reached, &record::SettingReading::mark);
  const double graduation = graduation_of(tested);
  const double estimate = setting_for(tested, tested.torque.reference()) / graduation;
  const double from =
      at == readings.begin() ? std::floor(estimate) * graduation : (at - 1)->setting;
  const auto past = std::ranges::find(readings, record::Mark::Past, &record::SettingReading::mark);
  const double to = past != readings.end() ? past->setting
                    : at != readings.end() ? readings.back().setting
                                           : std::ceil(estimate) * graduation;
  return {from, std::max(from, to)};
}

Torque nearest_limit(Torque torque, const record::ToleranceWindow& window) {
  std::optional<Torque> nearest;
  for (const auto& limit : {window.low, window.high}) {
    if (!limit) continue;
    const Torque distance = Torque::newton_metres(std::fabs((torque - *limit).in_newton_metres()));
    if (!nearest || distance < *nearest) nearest = distance;
  }
  return nearest ? *nearest : torque;
}

// What a finding has of u besides its reading, and how wide a step may be with it.
struct Others {
  Torque mark;
  Torque rest;  // wrench, stopping late, grip, running torque
};

struct WidestStep {
  Torque step;
  bool until_past = false;
};

// A pull at this setting stays below the ceiling.
bool may_pull(const Tested& tested, double setting) {
  return !tested.ceiling || record::applied_torque(tested.measured, setting) <= *tested.ceiling;
}

// The mark was seen past the line, or can be by a pull more.
bool may_see_it_past(const Tested& tested) {
  return !tested.torque.open_above ||
         may_pull(tested, tested.measured.readings.back().setting + graduation_of(tested));
}

std::optional<WidestStep> widest_step(const Tested& tested, Torque margin, const Others& others) {
  const auto square = [](Torque torque) {
    return torque.in_newton_metres() * torque.in_newton_metres();
  };
  const double closed = square(margin / 2.0) - square(others.rest);
  if (!(closed > 0.0)) return std::nullopt;
  const Torque until_past = Torque::newton_metres(std::sqrt(3.0 * closed));
  const double open = closed - square(others.mark);
  const Torque on_it = Torque::newton_metres(open > 0.0 ? std::sqrt(12.0 * open) : 0.0);
  if (on_it >= until_past || !may_see_it_past(tested)) {
    return open > 0.0 ? std::optional(WidestStep{on_it, false}) : std::nullopt;
  }
  return WidestStep{until_past, true};
}

Others others_in(const FoundTorque& torque, Torque wrench) {
  UncertaintyBudget budget = torque.budget;
  budget.reading = Torque::newton_metres(0);
  budget.mark = Torque::newton_metres(0);
  budget.wrench = wrench;
  return {torque.slope.counts * torque.mark_error.in_degrees() / std::numbers::sqrt3,
          budget.standard()};
}

// One pull of the last step further, where seeing the mark past the line then decides.
std::optional<OnePullFurther> one_pull_further(const Tested& tested, Torque margin,
                                               const Others& others) {
  const auto& readings = tested.measured.readings;
  if (!tested.torque.open_above || tested.torque.basis != Basis::Bracket) return std::nullopt;
  const auto at = std::ranges::find_if(readings, record::reached, &record::SettingReading::mark);
  const double before = (at - 1)->setting;
  const double further =
      graduated(readings.back().setting - (readings.end() - 2)->setting, graduation_of(tested));
  const double setting = readings.back().setting + std::max(further, graduation_of(tested));
  const Torque enclosed = record::applied_torque(tested.measured, (setting - before) / 2.0);
  const double u =
      std::hypot(enclosed.in_newton_metres() / std::numbers::sqrt3, others.rest.in_newton_metres());
  if (2.0 * u > margin.in_newton_metres() || setting > tested.wrench.scale.high ||
      !may_pull(tested, setting)) {
    return std::nullopt;
  }
  return OnePullFurther{setting};
}

OtherEnd other_end(const Tested& tested) {
  const bool above = tested.torque.basis == Basis::LowerBound;
  const double from =
      above ? tested.measured.readings.back().setting : tested.measured.readings.front().setting;
  const double step = graduated(setting_for(tested, widest_fine_step(tested.torque.reference())),
                                graduation_of(tested));
  return {above, from, std::max(step, graduation_of(tested))};
}

// This wrench in finer steps, or a finer scale; nothing where the step is too fine for a hand.
std::optional<Remedy> steps_of(const Tested& tested, Torque step, bool until_past = false) {
  if (step < tested.torque.reference() * kFinestStep) return std::nullopt;
  const double setting_step = setting_for(tested, step);
  const double fitting = graduated(setting_step, graduation_of(tested));
  if (fitting > 0.0) {
    const auto [from, to] = settings_around(tested);
    return FinerSteps{until_past, fitting, from, to};
  }
  return FinerScale{until_past, round_step(setting_step)};
}

Remedy better_wrench(const Tested& tested, Torque margin) {
  const Torque reference = tested.torque.reference();
  const auto now = record::permissible_deviation(tested.wrench);
  for (const double percent : kBetterAccuracies) {
    const auto better = Percent::of_hundred(percent);
    if (!(better < now)) continue;
    const auto step = widest_step(
        tested, margin, others_in(tested.torque, reference * better.ratio() / std::numbers::sqrt3));
    if (!step) continue;
    const double setting_step = round_step(setting_for(tested, step->step));
    if (setting_step < setting_for(tested, reference) * kFinestStep) continue;
    return BetterWrench{now, better, step->until_past, setting_step};
  }
  return TooNear{};
}

}  // namespace

std::optional<Advice> what_would_decide(const Tested& tested,
                                        const record::ToleranceWindow& window) {
  if (judge(tested.torque, window) != Verdict::Undecided) return std::nullopt;
  const Torque margin = nearest_limit(tested.torque.reference(), window);
  const Others others = others_in(tested.torque, tested.torque.budget.wrench);
  Advice advice{TooNear{}, margin, others.rest * 2.0};
  if (!tested.torque.best) {
    advice.remedy = other_end(tested);
    return advice;
  }
  if (const auto further = one_pull_further(tested, margin, others)) {
    advice.remedy = *further;
    return advice;
  }
  std::optional<Remedy> finer;
  if (const auto widest = widest_step(tested, margin, others)) {
    finer = steps_of(tested, widest->step, widest->until_past);
  }
  advice.remedy = finer ? *finer : better_wrench(tested, margin);
  return advice;
}

std::optional<Remedy> what_would_narrow(const Tested& tested) {
  const auto half_width = tested.torque.relative_half_width();
  if (!half_width) return other_end(tested);
  if (*half_width <= kFineHalfWidth) return std::nullopt;
  const double from = settings_around(tested).from;
  return steps_of(tested, widest_fine_step(record::applied_torque(tested.measured, from)));
}

}  // namespace finding
