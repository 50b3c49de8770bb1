#pragma once

#include <optional>
#include <vector>

#include "fastener/lost_preload.h"
#include "progress/reassembly.h"
#include "quantity/angle.h"

namespace progress {

// What a final stripe that has turned says about the preload of each of its fasteners.
struct TurnedStripe {
  fastener::PreloadBand lost;          // fastener/lost_preload.h
  fastener::AssumedStretch stretch;    // what it was computed with
  std::optional<quantity::Torque> at;  // the torque that they were last brought to
  // What that torque makes over the friction band of the condition; nothing where they were not all
  // brought to one torque, or an angle came after it, or no band is known.
  std::optional<fastener::PreloadBand> had;
  fastener::Condition condition = fastener::Condition::AsReceived;
};

// Nothing where the length of the joint's fasteners is not known.
[[nodiscard]] std::optional<TurnedStripe> turned_stripe(const Reassembly& reassembly,
                                                        const record::Recheck& recheck);

}  // namespace progress
