#include "finding/not_to_be_tested.h"

#include <fmt/format.h>

#include <map>

#include "record/address.h"

namespace finding {

std::string_view in_words(NoTest why) {
  switch (why) {
    case NoTest::LiveLoad:
      return "it holds a live load, and slackening it may let that go";
    case NoTest::OneTimeAngle:
      return "it is a one-time fastener tightened by angle: each pull stretches it further, and no "
             "torque tells what the angle made";
    case NoTest::Threadlocker:
      return "threadlocker holds it: what is read is the adhesive's torque too, and each pull "
             "breaks "
             "the adhesive further";
  }
  return {};
}

std::vector<NoTest> not_to_be_tested(const JointState& joint, int position) {
  std::vector<NoTest> reasons;
  if (joint.joint->live_load) reasons.push_back(NoTest::LiveLoad);
  const auto* specified = joint.at(position).specified;
  if (specified == nullptr) return reasons;
  if (joint.joint->one_time && record::has_angle_step(specified->procedure)) {
    reasons.push_back(NoTest::OneTimeAngle);
  }
  if (specified->condition == fastener::Condition::Threadlocker) {
    reasons.push_back(NoTest::Threadlocker);
  }
  return reasons;
}

std::string why_not_to_be_tested(const JointState& joint, int position) {
  std::string text;
  for (const auto why : not_to_be_tested(joint, position)) {
    text += fmt::format("{}{}", text.empty() ? "must not be tested: " : "; ", in_words(why));
  }
  return text;
}

std::vector<std::string> warnings_before_test(const JointState& joint,
                                              const std::vector<int>& positions) {
  std::map<std::string, std::vector<int>> by_reason;
  for (const int position : positions) {
    const auto why = why_not_to_be_tested(joint, position);
    if (!why.empty()) by_reason[why].push_back(position);
  }
  std::vector<std::string> warnings;
  warnings.reserve(by_reason.size());
  for (const auto& [why, which] : by_reason) {
    warnings.push_back(fmt::format("{} {}", record::write_address(joint.joint->code, which), why));
  }
  return warnings;
}

}  // namespace finding
