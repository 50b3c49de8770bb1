#include "finding/found_torque.h"

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <numbers>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace finding {
namespace {

using quantity::Torque;

// Whether a sound line may take the place of what the marks alone say.
LineUse line_against(const FoundTorque& marks, const OffsetLine& line) {
  if ((marks.low && line.at_mark < *marks.low) || (marks.high && line.at_mark > *marks.high)) {
    return LineUse::OutsideBracket;
  }
  const Torque widest =
      marks.best ? (*marks.high - *marks.low) / 2.0 : line.at_mark * kFairHalfWidth;
  return line.half_width < widest ? LineUse::Used : LineUse::NotNarrower;
}

void consider_line(FoundTorque& found, const record::Measured& measured,
                   const record::Wrench& wrench) {
  const auto [line, use] = offset_line(measured, wrench);
  found.line_use = use;
  if (!line) return;
  found.per_degree = line->per_degree;
  found.line_use = line_against(found, *line);
  if (found.line_use != LineUse::Used) return;
  found.basis = Basis::Line;
  found.best = line->at_mark;
  found.low = line->at_mark - line->half_width;
  found.high = line->at_mark + line->half_width;
  found.budget.reading = line->half_width / 2.0;
}

}  // namespace

Torque UncertaintyBudget::standard() const {
  return Torque::newton_metres(
      std::hypot(std::hypot(reading.in_newton_metres(), wrench.in_newton_metres()),
                 std::hypot(mark.in_newton_metres(), method.in_newton_metres())));
}

Torque UncertaintyBudget::expanded() const { return standard() * 2.0; }

Torque FoundTorque::reference() const {
  if (best) return *best;
  return low ? *low : *high;
}

std::optional<double> FoundTorque::relative_half_width() const {
  if (!best) return std::nullopt;
  return (*high - *low) / 2.0 / *best;
}

Torque widest_fine_step(Torque from) {
  return from * (2.0 * kFineHalfWidth / (1.0 - kFineHalfWidth));
}

FoundTorque found_torque(const record::Measured& measured, const record::Wrench& wrench,
                         quantity::Percent method_error) {
  assert(!measured.readings.empty());
  const auto applied = [&](const record::SettingReading& reading) {
    return record::applied_torque(measured, reading.setting);
  };
  const record::SettingReading* before = nullptr;  // s(k-1)
  const record::SettingReading* at = nullptr;      // s(k)
  for (const auto& reading : measured.readings) {
    if (record::reached(reading.mark)) {
      at = &reading;
      break;
    }
    before = &reading;
  }

  FoundTorque found;
  if (at == nullptr) {
    found.basis = Basis::LowerBound;
    found.low = applied(*before);
  } else if (before == nullptr) {
    found.basis = Basis::UpperBound;
    found.high = applied(*at);
  } else {
    const Torque half_step = (applied(*at) - applied(*before)) / 2.0;
    found.best = at->mark == record::Mark::On ? applied(*at) : applied(*before) + half_step;
    found.low = *found.best - half_step;
    found.high = *found.best + half_step;
    found.budget.reading = half_step / std::numbers::sqrt3;
  }
  consider_line(found, measured, wrench);
  const Torque reference = found.reference();
  found.budget.wrench =
      reference * record::permissible_deviation(wrench, reference).ratio() / std::numbers::sqrt3;
  if (found.per_degree) {
    found.budget.mark = *found.per_degree * kMarkError.in_degrees() / std::numbers::sqrt3;
  }
  found.budget.method = reference * method_error.ratio();
  return found;
}

void check_prevailing(const record::Measured& measured, const FoundTorque& found) {
  if (!measured.prevailing || measured.prevailing->torque() < found.reference()) return;
  throw failure::InputError(fmt::format(
      "a running torque of {} takes the whole of the {} that was found; expected less: it is what "
      "turns the fastener before it seats, so check --prevailing and the readings",
      quantity::write_exact(*measured.prevailing),
      quantity::write_rounded(found.reference(), measured.prevailing->unit)));
}

}  // namespace finding
