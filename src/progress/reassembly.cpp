#include "progress/reassembly.h"

#include <utility>

namespace progress {

SurveyedJob::SurveyedJob(record::Job whole_job)
    : job(std::move(whole_job)), survey(finding::survey(job)) {}

Reassembly::Reassembly(record::Job whole_job, record::Day day, const plan::ThroughAdapter& adapter)
    : SurveyedJob(std::move(whole_job)),
      PlanUnderWay(job, survey, all_joints(survey), day, adapter) {}

record::Job without_precedences(record::Job job) {
  for (auto& joint : job.joints) {
    joint.content.after.clear();
    joint.content.covers.clear();
  }
  return job;
}

}  // namespace progress
