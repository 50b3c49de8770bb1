#include "progress/plan_under_way.h"

#include <string>
#include <unordered_set>

#include "record/address.h"

namespace progress {

PlanUnderWay::PlanUnderWay(const record::Job& job, const finding::Survey& survey,
                           const std::vector<const finding::JointState*>& joints, record::Day day,
                           const plan::ThroughAdapter& adapter)
    : plan(plan::reassembly_plan(job, survey, joints, day, adapter)), progress(job, plan) {}

std::vector<const finding::JointState*> all_joints(const finding::Survey& survey) {
  std::vector<const finding::JointState*> joints;
  for (const auto& joint : survey.joints) joints.push_back(&joint);
  return joints;
}

std::vector<const finding::JointState*> joints_worked_on(const record::Job& job,
                                                         const finding::Survey& survey) {
  std::unordered_set<std::string> codes;
  for (const auto& entry : job.tightenings) codes.insert(record::folded_code(entry.content.joint));
  for (const auto& entry : job.stripes) codes.insert(record::folded_code(entry.content.joint));
  std::vector<const finding::JointState*> joints;
  for (const auto& state : survey.joints) {
    if (codes.contains(record::folded_code(state.joint->code))) joints.push_back(&state);
  }
  return joints;
}

}  // namespace progress
