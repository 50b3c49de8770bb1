#pragma once

#include <string>

#include "quantity/angle.h"
#include "quantity/length.h"
#include "quantity/torque.h"

namespace fastener {

// A crowfoot or extension that moves the fastener away from the wrench's square drive.
//   S = T L/(L + E cos a)
//   S  setting on the wrench        T  torque on the fastener, same unit
//   L  from the square drive to the middle of the hand grip
//   E  from the square drive to the middle of the fastener
//   a  between adapter and wrench: 0° straight on, 90° square to it, 180° folded back
// Source: statics of a pull square to the wrench; US Navy training manuals 14315 (straight) and
// 14008 (90°: no change, folded back: minus sign); a helicopter maintenance manual; US Army TM
// 9-2350-261-20-1 and TM 9-254. No source disagrees; the angles between are the same statics.
// Only for wrenches that feel the moment at their square drive, pulled at the middle of the grip.
// InputError: L not above zero, E below zero, a beyond 180° either way, and where the fastener
// comes to lie at the hand or behind it (L + E cos a at or below a tenth of L).
struct Adapter {
  quantity::Length wrench_length;   // L
  quantity::Length adapter_length;  // E
  quantity::Angle angle;            // a
};

// (L + E cos a)/L, torque on the fastener over setting.
[[nodiscard]] double torque_ratio(const Adapter& adapter);

[[nodiscard]] quantity::Torque wrench_setting(quantity::Torque on_fastener, const Adapter& adapter);

}  // namespace fastener
