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

// From the first to the last setting at which the mark was on the line.
double on_the_line(const Tested& tested) {
  std::optional<double> first;
  double last = 0.0;
  for (const auto& reading : tested.measured.readings) {
    if (reading.mark != record::Mark::On) continue;
    if (!first) first = reading.setting;
    last = reading.setting;
  }
  return first ? last - *first : 0.0;
}

bool was_pulled_at(const Tested& tested, double setting) {
  const double same = graduation_of(tested) * 1e-6;
  return std::ranges::any_of(tested.measured.readings, [&](const auto& reading) {
    return std::fabs(reading.setting - setting) < same;
  });
}

// The widest step that was pulled from the last `short` to the mark; nothing without one.
std::optional<double> step_before_the_mark(const Tested& tested) {
  const auto& readings = tested.measured.readings;
  const auto at = std::ranges::find_if(readings, record::reached, &record::SettingReading::mark);
  if (at == readings.begin() || at == readings.end()) return std::nullopt;
  return at->setting - (at - 1)->setting;
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

std::optional<WidestStep> widest_step(const Tested& tested, Torque margin, const Others& others,
                                      Torque on_line) {
  const auto square = [](Torque torque) {
    return torque.in_newton_metres() * torque.in_newton_metres();
  };
  const double closed = square(margin / 2.0) - square(others.rest);
  if (!(closed > 0.0)) return std::nullopt;
  const Torque until_past = Torque::newton_metres(std::sqrt(3.0 * closed)) - on_line / 2.0;
  const double open = closed - square(others.mark);
  const Torque on_it = Torque::newton_metres(open > 0.0 ? std::sqrt(12.0 * open) : 0.0);
  if (on_it >= until_past || !may_see_it_past(tested)) {
    return open > 0.0 ? std::optional(WidestStep{on_it, false}) : std::nullopt;
  }
  return WidestStep{until_past, true};
}

Others others_in(const FoundTorque& torque, Torque wrench, Torque on_line) {
  UncertaintyBudget budget = torque.budget;
  budget.reading = Torque::newton_metres(0);
  budget.mark = Torque::newton_metres(0);
  budget.wrench = wrench;
  const Torque by_mark = torque.slope.counts * torque.mark_error.in_degrees();
  return {std::max(by_mark, on_line / 2.0) / std::numbers::sqrt3, budget.standard()};
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

// Whether such steps lead to a setting that was not pulled; until past, one step beyond the last.
bool leads_on(const Tested& tested, const FinerSteps& steps) {
  const double end =
      std::min(steps.until_past ? steps.to + steps.step : steps.to, tested.wrench.scale.high);
  for (double setting = steps.from + steps.step; setting <= end; setting += steps.step) {
    if (!was_pulled_at(tested, setting)) return true;
  }
  return false;
}

// This wrench in finer steps, or a finer scale; nothing where the step is too fine for a hand or is
// what was pulled already.
std::optional<Remedy> steps_of(const Tested& tested, Torque step, bool until_past = false) {
  const double finest = setting_for(tested, tested.torque.reference() * kFinestStep);
  const double graduation = graduation_of(tested);
  const double setting_step = setting_for(tested, step);
  if (setting_step < finest) return std::nullopt;
  const auto [from, to] = settings_around(tested);
  double fitting = graduated(setting_step, graduation);
  if (to > from) fitting = std::min(fitting, graduated(to - from, graduation));
  if (fitting > 0.0) {
    for (; fitting >= std::max(finest, graduation * 0.5); fitting -= graduation) {
      const FinerSteps steps{until_past, fitting, from, to};
      if (leads_on(tested, steps)) return steps;
    }
    return std::nullopt;
  }
  const double finer = round_step(setting_step);
  const auto pulled = step_before_the_mark(tested);
  if (pulled && finer >= *pulled) return std::nullopt;
  return FinerScale{until_past, finer};
}

Offsets offsets_of(const Tested& tested) {
  const auto noted = std::ranges::count_if(
      tested.measured.readings, [](const auto& reading) { return reading.offset.has_value(); });
  return {static_cast<std::size_t>(noted)};
}

Remedy better_wrench(const Tested& tested, Torque margin) {
  const Torque reference = tested.torque.reference();
  const Torque on_line = record::applied_torque(tested.measured, on_the_line(tested));
  const auto now = record::permissible_deviation(tested.wrench);
  for (const double percent : kBetterAccuracies) {
    const auto better = Percent::of_hundred(percent);
    if (!(better < now)) continue;
    const auto step = widest_step(
        tested, margin,
        others_in(tested.torque, reference * better.ratio() / std::numbers::sqrt3, on_line),
        on_line);
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
  const Torque on_line = record::applied_torque(tested.measured, on_the_line(tested));
  const Others others = others_in(tested.torque, tested.torque.budget.wrench, on_line);
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
  if (const auto widest = widest_step(tested, margin, others, on_line)) {
    finer = steps_of(tested, widest->step, widest->until_past);
  }
  advice.remedy = finer ? *finer : better_wrench(tested, margin);
  return advice;
}

std::optional<Remedy> what_would_narrow(const Tested& tested) {
  const auto half_width = tested.torque.relative_half_width();
  if (!half_width) return other_end(tested);
  if (!is_wider_than(*half_width, kFineHalfWidth)) return std::nullopt;
  const Torque on_line = record::applied_torque(tested.measured, on_the_line(tested));
  const double from = settings_around(tested).from;
  const Torque step = on_line > Torque::newton_metres(0.0)
                          ? *tested.torque.best * kFineHalfWidth - on_line / 2.0
                          : widest_fine_step(record::applied_torque(tested.measured, from));
  if (auto finer = steps_of(tested, step, on_line > Torque::newton_metres(0.0))) return finer;
  return offsets_of(tested);
}

}  // namespace finding
