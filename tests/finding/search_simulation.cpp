#include "finding/search_simulation.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <variant>

#include "finding/chance.h"
#include "finding/next_setting.h"

namespace {

using finding::Ceiling;
using quantity::Torque;
using record::Mark;

struct Bolt {
  double nominal = 0.0;  // in the wrench's unit, as all below
  double spread = 0.0;
  double truth = 0.0;
  std::uint64_t pull_seed = 0;
  record::Wrench wrench;

  [[nodiscard]] Torque torque(double value) const {
    return quantity::torque_of(value, wrench.scale.unit);
  }
};

Bolt invented_bolt(Chance& chance) {
  Bolt bolt;
  bolt.wrench.scale.unit = chance.between(0, 1) < 0.5 ? quantity::TorqueUnit::NewtonMetre
                                                      : quantity::TorqueUnit::FootPoundForce;
  bolt.nominal =
      quantity::in_unit(Torque::newton_metres(5.0 * std::exp(chance.between(0.0, std::log(80.0)))),
                        bolt.wrench.scale.unit);
  bolt.spread = bolt.nominal * chance.one_of({0.05, 0.10, 0.15});
  const double kind = chance.between(0, 1);
  bolt.truth = bolt.nominal * (kind < 0.5   ? std::max(0.1, chance.around(0.95, 0.08))
                               : kind < 0.8 ? chance.between(0.45, 0.90)
                                            : chance.between(1.00, 1.40));
  bolt.wrench.name = "TW1";
  bolt.wrench.scale.high = bolt.nominal * chance.between(1.3, 2.5);
  bolt.wrench.graduation = bolt.wrench.scale.high / chance.one_of({50, 100, 200});
  bolt.wrench.calibrated = record::read_day("2026-03-02");
  bolt.pull_seed = static_cast<std::uint64_t>(chance.between(0.0, 1e15));
  return bolt;
}

// `round` 1 is the search, 2 its narrowing; each pull has a scatter of its own, which hangs on the
// setting alone, so that both ways meet the same one.
Mark mark_after(const Bolt& bolt, double setting, std::uint64_t round) {
  const auto mark = static_cast<std::uint64_t>(std::llround(setting / bolt.wrench.graduation));
  Chance chance(bolt.pull_seed + round, mark);
  const double applied = setting * (1.0 + chance.between(-0.01, 0.01));
  if (applied < bolt.truth * 0.985) return Mark::Short;
  return applied <= bolt.truth * 1.015 ? Mark::On : Mark::Past;
}

// What the readings come to, everything else being in order.
struct Judged {
  finding::Grade grade = finding::Grade::X;
  bool bracketed = false;
};

Judged judged(const Bolt& bolt, const record::Measured& measured) {
  record::check_readings(measured.readings);
  const auto found =
      finding::found_torque(measured, bolt.wrench, quantity::Percent::of_hundred(2.0));
  return {finding::grade({measured, found, &bolt.wrench, record::read_day("2026-06-01"),
                          record::BreakLoose::Normal, true, fastener::Condition::AsReceived})
              .grade,
          found.best.has_value()};
}

// Pulls that it takes to narrow a bracket to grade A, after backing off.
std::optional<std::size_t> pulls_to_narrow(const Bolt& bolt, const record::Measured& wide) {
  const auto& readings = wide.readings;
  const double low = readings[readings.size() - 2].setting;
  const auto widest = bolt.torque(low);
  const double step =
      bolt.wrench.graduation *
      std::floor(finding::widest_fine_step(widest) / bolt.torque(bolt.wrench.graduation) + 1e-9);
  if (step <= 0.0) return std::nullopt;
  record::Measured second;
  second.unit = wide.unit;
  for (double setting = low;; setting = std::min(setting + step, readings.back().setting)) {
    second.readings.push_back({setting, mark_after(bolt, setting, 2), std::nullopt});
    if (record::reached(second.readings.back().mark)) break;
    if (setting >= readings.back().setting) return std::nullopt;
  }
  if (judged(bolt, second).grade != finding::Grade::A) return std::nullopt;
  return second.readings.size();
}

// Pulls at the settings that `next` gives until it gives none.
SearchEnd search(const Bolt& bolt,
                 const std::function<std::optional<double>(const record::Measured&)>& next) {
  record::Measured measured;
  measured.unit = bolt.wrench.scale.unit;
  SearchEnd end;
  while (const auto setting = next(measured)) {
    if (*setting > (bolt.nominal + bolt.spread) * (1.0 + 1e-9)) end.passed_ceiling = true;
    const double marks = *setting / bolt.wrench.graduation;
    if (std::fabs(marks - std::round(marks)) > 1e-6) end.off_graduation = true;
    measured.readings.push_back({*setting, mark_after(bolt, *setting, 1), std::nullopt});
  }
  end.pulls = measured.readings.size();
  if (measured.readings.empty()) return end;
  const auto result = judged(bolt, measured);
  end.grade = result.grade;
  end.bracketed = result.bracketed;
  if (end.grade == finding::Grade::A) {
    end.pulls_to_grade_a = end.pulls;
  } else if (end.bracketed) {
    if (const auto more = pulls_to_narrow(bolt, measured)) end.pulls_to_grade_a = end.pulls + *more;
  }
  return end;
}

std::optional<double> proposed(const Bolt& bolt, const record::Measured& measured) {
  const auto proposal = finding::next_setting(
      {measured, bolt.wrench,
       fastener::TorqueRange{bolt.torque(bolt.nominal - bolt.spread),
                             bolt.torque(bolt.nominal + bolt.spread)},
       Ceiling{bolt.torque(bolt.nominal + bolt.spread), Ceiling::From::Tolerance}});
  if (const auto* next = std::get_if<finding::NextSetting>(&proposal)) return next->setting;
  return std::nullopt;
}

// 60, 65, 70 ... % of nominal, down to a graduation, from the wrench's least setting on.
std::optional<double> fixed_step(const Bolt& bolt, const record::Measured& measured) {
  const auto& readings = measured.readings;
  if (!readings.empty() && readings.back().mark != Mark::Short) return std::nullopt;
  const double last = readings.empty() ? 0.0 : readings.back().setting;
  const double graduation = bolt.wrench.graduation;
  for (int percent = 60;; percent += 5) {
    const double setting =
        std::floor(bolt.nominal * percent / 100.0 / graduation + 1e-9) * graduation;
    if (setting > bolt.wrench.scale.high || setting > (bolt.nominal + bolt.spread) * (1.0 + 1e-9)) {
      return std::nullopt;
    }
    if (setting > last && record::in_range(bolt.wrench, setting)) return setting;
  }
}

TrueTorque where_is(const Bolt& bolt) {
  if (bolt.truth < bolt.nominal - bolt.spread) return TrueTorque::BelowTolerance;
  return bolt.truth > bolt.nominal + bolt.spread ? TrueTorque::AboveTolerance : TrueTorque::Within;
}

}  // namespace

SimulatedBolt simulate_bolt(std::uint64_t seed, std::uint64_t number) {
  Chance chance(seed, number);
  const Bolt bolt = invented_bolt(chance);
  const auto by = [&](auto&& next) {
    return search(bolt, [&](const record::Measured& measured) { return next(bolt, measured); });
  };
  return {where_is(bolt), bolt.wrench.graduation / bolt.nominal, by(proposed), by(fixed_step)};
}
