#include "words/taking_apart.h"

#include <algorithm>

namespace words {
namespace {

bool came_apart(const finding::JointState& joint) {
  return std::ranges::any_of(joint.positions,
                             [](const auto& position) { return position.removal != nullptr; });
}

}  // namespace

TakingApart::TakingApart(const progress::Reassembly& reassembly)
    : reassembly_(reassembly),
      decided_(reassembly.job, reassembly.survey),
      work_(reassembly.job, reassembly.survey, reassembly.progress) {}

bool TakingApart::is_back(const finding::JointState& joint, int position) const {
  const auto* work = work_.joint(joint.joint->code);
  return work != nullptr && work->is_back(position);
}

std::vector<int> TakingApart::still_in(const finding::JointState& joint) const {
  std::vector<int> in;
  for (const auto& position : joint.positions) {
    if (position.removal != nullptr || is_back(joint, position.position)) continue;
    const auto& decided = decided_.at(joint.joint->code, position.position);
    if (decided.left_alone != nullptr || decided.never_out != nullptr) continue;
    in.push_back(position.position);
  }
  return in;
}

bool TakingApart::has_begun_to_go_back() const {
  const auto& planned = reassembly_.progress.plan().joints;
  const auto first = std::ranges::find_if(
      planned, [](const plan::PlannedJoint& joint) { return came_apart(*joint.state); });
  if (first == planned.end() || work_.joint(first->state->joint->code) == nullptr) return false;
  return std::ranges::any_of(reassembly_.progress.steps(), [](const progress::Step& step) {
    return step.stands == progress::Step::Stands::Open && came_apart(*step.joint->state);
  });
}

bool TakingApart::goes_on() const {
  return std::ranges::any_of(reassembly_.survey.joints,
                             [&](const auto& joint) { return !still_in(joint).empty(); }) &&
         !has_begun_to_go_back();
}

}  // namespace words
