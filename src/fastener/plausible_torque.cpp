#include "fastener/plausible_torque.h"

#include "fastener/bearing.h"
#include "fastener/utilisation.h"

namespace fastener {

TorqueRange plausible_torque(const Thread& thread, const Strength& strength,
                             const FrictionBand& friction, quantity::Length bearing,
                             quantity::Torque running) {
  const auto least = quantity::Percent::of_hundred(55.0);
  const auto most = quantity::Percent::of_hundred(90.0);
  return {torque_for_proof_share(thread, bearing, friction.low, strength, least) + running,
          torque_for_yield_share(thread, bearing, friction.high, strength, most, running)};
}

TorqueRange plausible_torque(const Thread& thread, const Strength& strength,
                             const FrictionBand& friction) {
  return plausible_torque(thread, strength, friction, usual_bearing_diameter(thread),
                          quantity::Torque::newton_metres(0.0));
}

std::optional<TorqueRange> plausible_torque(const Thread& thread, Grade grade,
                                            Condition condition) {
  const auto strength = strength_of(grade, thread);
  const auto friction = friction_band(condition, metal_of(grade));
  if (!strength || !friction) return std::nullopt;
  return plausible_torque(thread, *strength, *friction);
}

}  // namespace fastener
