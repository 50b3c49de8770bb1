#include "finding/test_simulation.h"

#include <algorithm>
#include <cmath>

#include "finding/chance.h"
#include "finding/tightened_to.h"
#include "finding/torque_per_degree.h"

namespace {

using quantity::Angle;
using quantity::Torque;
using record::Mark;

// The bolt under test and what is not known of it.
struct Tested {
  finding::TestedBolt bolt;  // as on record
  record::Wrench wrench;
  double truth = 0.0;           // N·m, with what stopping late adds
  double per_degree = 0.0;      // N·m
  double wrench_off = 0.0;      // share
  double late = 0.0;            // share
  double looks_on_short = 0.0;  // degrees short of the line that still look on
  double looks_on_past = 0.0;
};

Tested invented_test(Chance& chance) {
  Tested test;
  constexpr std::array kSizes = {6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 24.0};
  const double diameter = kSizes.at(static_cast<std::size_t>(chance.between(0.0, 7.0)));
  test.bolt.thread = fastener::Thread::metric(diameter, diameter * 0.15);
  test.bolt.length = quantity::Length::millimetres(diameter * chance.between(3.0, 10.0));
  test.bolt.condition = fastener::Condition::Oiled;
  test.bolt.metal = fastener::BoltMetal::Steel;
  // Torque for 60 % of yield goes with d³: 85 N·m · 0.7 at an M12 of class 8.8.
  test.truth = 60.0 * std::pow(diameter / 12.0, 3.0) * chance.between(0.6, 1.3);
  const auto slope = finding::estimated_slope(test.bolt, Torque::newton_metres(test.truth));
  test.per_degree =
      slope.low.in_newton_metres() * std::pow(slope.high / slope.low, chance.between(0.0, 1.0));
  if (chance.between(0.0, 1.0) < 0.25) test.bolt.length.reset();
  if (chance.between(0.0, 1.0) < 0.25) test.bolt.metal.reset();
  test.wrench.scale = {0.0, test.truth * chance.between(1.4, 2.5),
                       quantity::TorqueUnit::NewtonMetre};
  test.wrench.graduation = test.wrench.scale.high / 100.0;
  test.wrench_off = chance.between(-1.0, 1.0) * record::permissible_deviation(test.wrench).ratio();
  test.late = chance.around(0.0, 0.02);
  const double half_line = finding::mark_error(test.bolt).in_degrees();
  test.looks_on_short = half_line * chance.between(0.1, 1.0);
  test.looks_on_past = half_line * chance.between(0.1, 1.0);
  return test;
}

// Degrees short of the line after a pull at this setting.
double offset_after(const Tested& test, double setting) {
  const double applied = setting * (1.0 + test.wrench_off) * (1.0 + test.late);
  return (test.truth - applied) / test.per_degree;
}

Mark mark_at(const Tested& test, double offset) {
  if (offset > test.looks_on_short) return Mark::Short;
  return offset >= -test.looks_on_past ? Mark::On : Mark::Past;
}

record::Measured pulled(const Tested& test, Reading reading, Chance& chance) {
  record::Measured measured;
  const double graduation = test.wrench.graduation;
  const double step = std::max(
      graduation, graduation * std::round(test.truth * chance.between(0.02, 0.08) / graduation));
  const double first =
      reading == Reading::OnAtOnce ? chance.between(0.9, 1.1) : chance.between(0.6, 0.8);
  double setting = graduation * std::round(test.truth * first / graduation);
  for (int pull = 0; pull < 60; ++pull, setting += step) {
    const double offset = offset_after(test, setting);
    const Mark mark = mark_at(test, offset);
    if (reading == Reading::NeverOn && mark != Mark::Short) break;
    record::SettingReading row{setting, mark, std::nullopt};
    if (reading == Reading::Offsets && mark != Mark::On) {
      const double read = std::round(offset + chance.around(0.0, 0.5));
      if ((read > 0.0) == (mark == Mark::Short) && read != 0.0) row.offset = Angle::degrees(read);
    }
    measured.readings.push_back(row);
    if (mark == Mark::Past) break;
    if (mark == Mark::On && (reading == Reading::EndedOn || reading == Reading::OnAtOnce)) break;
  }
  return measured;
}

bool is_as_asked(Reading reading, const record::Measured& measured,
                 const finding::FoundTorque& found) {
  if (reading == Reading::OnAtOnce) {
    return found.basis == finding::Basis::UpperBound && measured.readings.front().mark == Mark::On;
  }
  if (reading == Reading::NeverOn) return found.basis == finding::Basis::LowerBound;
  if (!found.best) return false;
  const bool any_on =
      std::ranges::any_of(measured.readings, [](const auto& row) { return row.mark == Mark::On; });
  switch (reading) {
    case Reading::EndedOn:
      return found.open_above;
    case Reading::PastInOneStep:
      return !any_on;
    case Reading::OnThenPast:
      return any_on;
    case Reading::Offsets:
      return found.basis == finding::Basis::Line;
    case Reading::OnAtOnce:
    case Reading::NeverOn:
      break;
  }
  return false;
}

}  // namespace

std::string_view name_of(Reading reading) {
  switch (reading) {
    case Reading::EndedOn:
      return "ended on the line";
    case Reading::PastInOneStep:
      return "past straight after short";
    case Reading::OnThenPast:
      return "on, then past";
    case Reading::Offsets:
      return "line through offsets";
    case Reading::OnAtOnce:
      return "on the line at once";
    case Reading::NeverOn:
      return "never on the line";
  }
  return "";
}

SimulatedTest simulate_test(Reading reading, std::uint64_t seed, std::uint64_t number) {
  Chance chance(seed, number);
  const Tested test = invented_test(chance);
  const double tightened = test.truth / chance.between(finding::kLeastFoundOverTightened,
                                                       finding::kMostFoundOverTightened);
  const auto measured = pulled(test, reading, chance);
  SimulatedTest result;
  if (measured.readings.empty()) return result;
  const auto found =
      finding::found_torque(measured, test.wrench, quantity::Percent::of_hundred(2.0), test.bolt);
  if (!is_as_asked(reading, measured, found)) return result;
  result.counts = true;
  result.is_bound = !found.best;
  const double best = found.reference().in_newton_metres();
  const double expanded = found.budget.expanded().in_newton_metres();
  const double above = test.truth - best;
  const double off = found.basis == finding::Basis::UpperBound   ? std::max(0.0, above)
                     : found.basis == finding::Basis::LowerBound ? std::max(0.0, -above)
                                                                 : std::fabs(above);
  result.covered = off <= expanded;
  result.needed = off / expanded;
  result.relative = expanded / best;
  if (result.is_bound) return result;
  const auto estimate = finding::tightened_to(found);
  result.tightened_covered = std::fabs(estimate.best.in_newton_metres() - tightened) <=
                             estimate.expanded.in_newton_metres();
  return result;
}
