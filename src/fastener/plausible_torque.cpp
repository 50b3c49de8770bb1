#include "fastener/plausible_torque.h"

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

}  // namespace fastener
