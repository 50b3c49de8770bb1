#include "progress/torque_limit.h"

namespace progress {

std::optional<quantity::Torque> torque_limit(const std::vector<const Step*>& steps) {
  std::optional<quantity::Torque> most;
  for (const auto* step : steps) {
    const auto& aim = step->planned().pass.aim;
    if (!aim) continue;
    if (aim->low && !aim->high) return std::nullopt;
    auto limit = aim->high.value_or(aim->torque);
    if (aim->may_run) limit = limit + *aim->may_run;
    if (!most || limit > *most) most = limit;
  }
  return most;
}

}  // namespace progress
