#pragma once

#include "finding/survey.h"
#include "plan/reassembly_plan.h"
#include "progress/progress.h"

namespace progress {

// A job with its plan on one day and how far that has been carried out. All of it points into each
// other, so it stays where it is.
struct Reassembly {
  // Throws plan::PlanCycle.
  Reassembly(record::Job whole_job, record::Day day, const plan::ThroughAdapter& adapter = {});
  Reassembly(const Reassembly&) = delete;
  Reassembly& operator=(const Reassembly&) = delete;

  const record::Job job;
  const finding::Survey survey;
  const plan::ReassemblyPlan plan;
  const Progress progress;
};

}  // namespace progress
