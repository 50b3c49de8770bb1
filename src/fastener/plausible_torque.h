#pragma once

#include "fastener/friction.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "fastener/torque_range.h"
#include "quantity/length.h"

namespace fastener {

// The torques that make sense for a bolt of this thread and strength.
// Never a specification: it is there to spot a slip in one, and to give an order of size where
// there is none.
//   low:   55 % of proof (pull alone) at the low end of the friction band
//   high:  90 % of yield (pull and twist) at the high end of it
// Origin of the ends: published tables aim at 65 % of yield (NASA TM-106943), 75 % of proof
// (Shigley 9th ed., section 8-9, for joints that are taken apart; Machine Design Nov. 1977) and
// 90 % of yield (VDI 2230 Part 1); the most careful of those compared (US Army TM 9-2320-362-14&P,
// dry) comes to 57 % of proof. The band holds every torque of six published tables. `bearing` is
// the diameter at which the turned face rubs (bearing.h), `running` the torque that a locking
// feature takes: it twists the bolt and comes on top of both ends. A joint limited by its gasket, a
// soft part or a short thread in aluminium may rightly lie below it.
[[nodiscard]] TorqueRange plausible_torque(const Thread& thread, const Strength& strength,
                                           const FrictionBand& friction, quantity::Length bearing,
                                           quantity::Torque running);

}  // namespace fastener
