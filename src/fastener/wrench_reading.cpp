#include "fastener/wrench_reading.h"

#include "failure/failure.h"

namespace fastener {

using quantity::Torque;

Torque with_prevailing_torque(Torque stated, Torque prevailing) {
  if (prevailing < Torque::newton_metres(0.0)) {
    throw failure::InputError("the drag of a locking feature cannot be below zero");
  }
  return stated + prevailing;
}

TorqueRange with_prevailing_torque_one_third_rule(TorqueRange recommended, Torque prevailing) {
  const TorqueRange added{with_prevailing_torque(recommended.low, prevailing),
                          with_prevailing_torque(recommended.high, prevailing)};
  return prevailing < recommended.high / 3.0 ? recommended : added;
}

Torque at_bolt_head(Torque stated_for_nut) { return stated_for_nut * 1.1; }

}  // namespace fastener
