#include "finding/position_search.h"

#include <algorithm>

#include "finding/search_start.h"

namespace finding {
namespace {

using quantity::Torque;

fastener::Condition condition_at(const PositionState& position) {
  return position.specified == nullptr ? fastener::Condition::AsReceived
                                       : position.specified->condition;
}

Torque prevailing_in(const record::Measured& test) {
  return test.prevailing ? test.prevailing->torque() : Torque::newton_metres(0.0);
}

}  // namespace

Proposal next_setting_at(const JointState& joint, const record::Measured& test,
                         const record::Wrench& wrench) {
  const auto& position = joint.at(test.position);
  return next_setting(
      {test, wrench,
       expected_torque(*joint.joint, condition_at(position), position.window, prevailing_in(test)),
       ceiling_at(joint, test), search_start(joint, test, wrench)});
}

std::optional<Ceiling> ceiling_at(const JointState& joint, const record::Measured& test) {
  const auto& position = joint.at(test.position);
  return search_ceiling(*joint.joint, condition_at(position), position.window, prevailing_in(test));
}

std::optional<fastener::TorqueRange> searched_range(const JointState& joint, int position) {
  const auto& state = joint.at(position);
  const auto nothing_to_run = Torque::newton_metres(0.0);
  auto range = expected_torque(*joint.joint, condition_at(state), state.window, nothing_to_run);
  const auto ceiling =
      search_ceiling(*joint.joint, condition_at(state), state.window, nothing_to_run);
  if (range && ceiling) range->high = std::min(range->high, ceiling->torque);
  return range;
}

bool covers(const record::Wrench& wrench, const fastener::TorqueRange& range) {
  const auto at = [&](double setting) { return quantity::torque_of(setting, wrench.scale.unit); };
  return at(record::least_setting(wrench)) < range.low && at(wrench.scale.high) >= range.high;
}

}  // namespace finding
