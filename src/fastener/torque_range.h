#pragma once

#include "quantity/torque.h"

namespace fastener {

struct TorqueRange {
  quantity::Torque low;
  quantity::Torque high;
};

}  // namespace fastener
