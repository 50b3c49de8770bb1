#include "record/tightening.h"

namespace record {

std::optional<quantity::Torque> applied_torque(const Tightening& tightening) {
  if (!tightening.setting) return std::nullopt;
  return quantity::torque_of(*tightening.setting, tightening.unit) *
         tightening.adapter.torque_ratio;
}

}  // namespace record
