#include "progress/reassembly.h"

namespace progress {
namespace {

std::vector<const finding::JointState*> all_joints(const finding::Survey& survey) {
  std::vector<const finding::JointState*> joints;
  for (const auto& joint : survey.joints) joints.push_back(&joint);
  return joints;
}

}  // namespace

Reassembly::Reassembly(record::Job whole_job, record::Day day, const plan::ThroughAdapter& adapter)
    : job(std::move(whole_job)),
      survey(finding::survey(job)),
      plan(plan::reassembly_plan(job, survey, all_joints(survey), day, adapter)),
      progress(job, plan) {}

}  // namespace progress
