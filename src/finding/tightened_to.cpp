#include "finding/tightened_to.h"

#include <cmath>
#include <numbers>

namespace finding {

TightenedTo tightened_to(const FoundTorque& found) {
  constexpr double kMiddle = (kLeastFoundOverTightened + kMostFoundOverTightened) / 2.0;
  constexpr double kHalfRange = (kMostFoundOverTightened - kLeastFoundOverTightened) / 2.0;
  const auto best = found.reference() / kMiddle;
  const double of_found = found.budget.standard().in_newton_metres() / kMiddle;
  const double of_ratio = best.in_newton_metres() * kHalfRange / kMiddle / std::numbers::sqrt3;
  return {best, quantity::Torque::newton_metres(2.0 * std::hypot(of_found, of_ratio))};
}

Verdict judge_tightened(const FoundTorque& found, const record::ToleranceWindow& window) {
  const auto [best, expanded] = tightened_to(found);
  return judge(Uncertain{found.basis, best, expanded}, window);
}

}  // namespace finding
