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

}  // namespace fastener
