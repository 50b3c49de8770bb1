#include "record/tightening.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "record/address.h"

namespace record {

std::string address_text(const Tightening& tightening) {
  if (!tightening.in_order || tightening.positions.size() < 2) {
    return write_address(tightening.joint, tightening.positions);
  }
  return fmt::format("{}/{}", tightening.joint, fmt::join(tightening.positions, ","));
}

std::optional<quantity::Torque> applied_torque(const Tightening& tightening) {
  if (!tightening.setting) return std::nullopt;
  return quantity::torque_of(*tightening.setting, tightening.unit) *
         tightening.adapter.torque_ratio;
}

}  // namespace record
