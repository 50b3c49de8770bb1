#pragma once

#include "finding/survey.h"
#include "progress/plan_under_way.h"

namespace progress {

// A job with its survey, which points into it.
struct SurveyedJob {
  explicit SurveyedJob(record::Job whole_job);
  SurveyedJob(const SurveyedJob&) = delete;
  SurveyedJob& operator=(const SurveyedJob&) = delete;

  const record::Job job;
  const finding::Survey survey;
};

// A job with its plan on one day and how far that has been carried out. All of it points into each
// other, so it stays where it is.
struct Reassembly : SurveyedJob, PlanUnderWay {
  // Of all joints. Throws plan::PlanCycle.
  Reassembly(record::Job whole_job, record::Day day, const plan::ThroughAdapter& adapter = {});
};

// The job with no joint waiting for another: what can be told of it while they wait for each other
// in a circle.
[[nodiscard]] record::Job without_precedences(record::Job job);

}  // namespace progress
