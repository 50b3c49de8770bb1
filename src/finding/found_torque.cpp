#include "finding/found_torque.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace finding {
namespace {

using quantity::Torque;

bool reached(const record::SettingReading& reading) {
  return reading.mark == record::Mark::On || reading.mark == record::Mark::Past;
}

}  // namespace

Torque UncertaintyBudget::standard() const {
  return Torque::newton_metres(
      std::hypot(bracket.in_newton_metres(), wrench.in_newton_metres(), method.in_newton_metres()));
}

Torque UncertaintyBudget::expanded() const { return standard() * 2.0; }

Torque FoundTorque::reference() const {
  if (best) return *best;
  return low ? *low : *high;
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
    if (reached(reading)) {
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
    found.budget.bracket = half_step / std::numbers::sqrt3;
  }
  const Torque reference = found.reference();
  found.budget.wrench =
      reference * record::permissible_deviation(wrench, reference).ratio() / std::numbers::sqrt3;
  found.budget.method = reference * method_error.ratio();
  return found;
}

}  // namespace finding
