#include "finding/found_torque.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace finding {
namespace {

using quantity::Torque;

// The settings, at the fastener, at which the mark changed.
struct Marks {
  std::optional<Torque> last_short;
  std::optional<Torque> first_on;
  std::optional<Torque> before_last_on;  // the setting pulled before `last_on`
  std::optional<Torque> last_on;
  std::optional<Torque> first_past;
};

Marks marks_of(const record::Measured& measured) {
  Marks marks;
  std::optional<Torque> before;
  for (const auto& reading : measured.readings) {
    const Torque applied = record::applied_torque(measured, reading.setting);
    if (reading.mark == record::Mark::Past) {
      marks.first_past = applied;
      return marks;
    }
    if (reading.mark == record::Mark::On) {
      if (!marks.first_on) marks.first_on = applied;
      marks.before_last_on = before;
      marks.last_on = applied;
    } else {
      marks.last_short = applied;
    }
    before = applied;
  }
  return marks;
}

double squared(Torque torque) { return torque.in_newton_metres() * torque.in_newton_metres(); }

Torque at_mark_error(const FoundTorque& found) {
  return found.slope.counts * found.mark_error.in_degrees();
}

// Estimate and edges; the parts of the budget hang on the slope, which hangs on the estimate.
FoundTorque edges_of(const Marks& marks) {
  FoundTorque found;
  if (!marks.first_on && !marks.first_past) {
    found.basis = Basis::LowerBound;
    found.low = marks.last_short;
  } else if (!marks.last_short) {
    found.basis = Basis::UpperBound;
    found.high = marks.first_on ? marks.first_on : marks.first_past;
  } else if (!marks.first_on) {
    found.best = (*marks.last_short + *marks.first_past) / 2.0;
    found.low = marks.last_short;
    found.high = marks.first_past;
  } else {
    found.open_above = !marks.first_past;
    found.best = (*marks.first_on + *marks.last_on) / 2.0;
    const Torque step = *marks.last_on - *marks.before_last_on;
    const bool once = *marks.first_on == *marks.last_on;
    found.low = once ? *found.best - step / 2.0 : *marks.last_short;
    found.high = *marks.last_on + (once ? step / 2.0 : step);
    if (marks.first_past && *marks.first_past < *found.high) found.high = marks.first_past;
  }
  return found;
}

void weigh_marks(FoundTorque& found, const Marks& marks) {
  Torque by_mark = at_mark_error(found);
  if (marks.first_on) by_mark = std::max(by_mark, (*marks.last_on - *marks.first_on) / 2.0);
  if (!found.best) {
    if (marks.first_on) found.budget.mark = by_mark / std::numbers::sqrt3;
    return;
  }
  std::optional<Torque> enclosed;
  if (marks.first_past) enclosed = (*marks.first_past - *marks.last_short) / 2.0;
  const Torque half_step = marks.first_on ? (*marks.first_on - *marks.last_short) / 2.0 : *enclosed;
  const bool closed =
      enclosed && (!marks.first_on || squared(*enclosed) <= squared(half_step) + squared(by_mark));
  found.budget.reading = (closed ? *enclosed : half_step) / std::numbers::sqrt3;
  if (closed) {
    found.enclosed = FoundTorque::Enclosed{*marks.last_short, *marks.first_past};
  } else {
    found.budget.mark = by_mark / std::numbers::sqrt3;
  }
}

// Whether a sound line may take the place of what the marks alone say.
LineUse line_against(const FoundTorque& marks, const OffsetLine& line) {
  if ((marks.low && line.at_mark < *marks.low) || (marks.high && line.at_mark > *marks.high)) {
    return LineUse::OutsideBracket;
  }
  if (!marks.best) {
    return line.half_width < line.at_mark * kFairHalfWidth ? LineUse::Used : LineUse::NotNarrower;
  }
  const double by_line =
      squared(line.half_width / 2.0) + squared(at_mark_error(marks) / std::numbers::sqrt3);
  const double by_marks = squared(marks.budget.reading) + squared(marks.budget.mark);
  return by_line < by_marks ? LineUse::Used : LineUse::NotNarrower;
}

void use_line(FoundTorque& found, const OffsetLine& line) {
  found.basis = Basis::Line;
  found.enclosed.reset();
  found.best = line.at_mark;
  found.low = line.at_mark - line.half_width;
  found.high = line.at_mark + line.half_width;
  found.budget.reading = line.half_width / 2.0;
  found.budget.mark = at_mark_error(found) / std::numbers::sqrt3;
}

}  // namespace

Torque UncertaintyBudget::standard() const {
  double sum = 0.0;
  for (const Torque part : {reading, wrench, mark, method, grip, running}) sum += squared(part);
  return Torque::newton_metres(std::sqrt(sum));
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

bool is_wider_than(double relative_half_width, double share) {
  constexpr double kRounding = 1e-9;
  return relative_half_width > share * (1.0 + kRounding);
}

Torque widest_fine_step(Torque from) {
  return from * (2.0 * kFineHalfWidth / (1.0 - kFineHalfWidth));
}

FoundTorque found_torque(const record::Measured& measured, const record::Wrench& wrench,
                         quantity::Percent method_error, const TestedBolt& bolt) {
  assert(!measured.readings.empty());
  const Marks marks = marks_of(measured);
  FoundTorque found = edges_of(marks);
  found.mark_error = mark_error(bolt);
  found.slope = estimated_slope(bolt, found.reference());
  const auto [line, use] = offset_line(measured, {wrench, found.mark_error, found.slope.high});
  found.line_use = use;
  if (line) {
    found.slope = measured_slope(line->per_degree);
  }
  weigh_marks(found, marks);
  if (line) {
    found.line_use = line_against(found, *line);
    if (found.line_use == LineUse::Used) use_line(found, *line);
  }

  const Torque reference = found.reference();
  found.budget.wrench =
      reference * record::permissible_deviation(wrench).ratio() / std::numbers::sqrt3;
  found.budget.method = reference * method_error.ratio();
  // applied = setting · ratio with ratio = 1 + e/L, so that dT/T = (ratio - 1)/ratio · dL/L.
  const double lengthened =
      std::fabs(measured.adapter.torque_ratio - 1.0) / measured.adapter.torque_ratio;
  found.budget.grip = reference * (lengthened * kGripError / std::numbers::sqrt3);
  if (measured.prevailing) {
    found.budget.running = measured.prevailing->torque() * (kRunningError / std::numbers::sqrt3);
  }
  return found;
}

int last_place(const FoundTorque& found, quantity::TorqueUnit unit) {
  const auto in = [&](Torque torque) { return quantity::in_unit(torque, unit); };
  return quantity::place_between(in(*found.best), in(found.budget.expanded()), in(*found.low),
                                 in(*found.high));
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
