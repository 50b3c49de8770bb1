#include "finding/position_search.h"

#include "finding/not_to_be_tested.h"

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
  if (auto why = why_not_to_be_tested(joint, test.position); !why.empty()) {
    return Stop{StopReason::NoTest, std::move(why)};
  }
  return next_setting(
      {test, wrench,
       expected_torque(*joint.joint, condition_at(position), position.window, prevailing_in(test)),
       ceiling_at(joint, test)});
}

std::optional<Ceiling> ceiling_at(const JointState& joint, const record::Measured& test) {
  const auto& position = joint.at(test.position);
  return search_ceiling(*joint.joint, condition_at(position), position.window, prevailing_in(test));
}

}  // namespace finding
