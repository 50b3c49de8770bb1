#pragma once

#include <vector>

#include "finding/survey.h"
#include "plan/reassembly_plan.h"
#include "progress/progress.h"

namespace progress {

// A plan and how far it has been carried out. It points into job and survey, and into itself, so
// it stays where it is.
struct PlanUnderWay {
  // Of these joints (plan/reassembly_plan.h). Throws plan::PlanCycle.
  PlanUnderWay(const record::Job& job, const finding::Survey& survey,
               const std::vector<const finding::JointState*>& joints, record::Day day,
               const plan::ThroughAdapter& adapter = {});
  PlanUnderWay(const PlanUnderWay&) = delete;
  PlanUnderWay& operator=(const PlanUnderWay&) = delete;

  const plan::ReassemblyPlan plan;
  const Progress progress;
};

[[nodiscard]] std::vector<const finding::JointState*> all_joints(const finding::Survey& survey);

// Those on whose reassembly something is on record; the others are still in parts.
[[nodiscard]] std::vector<const finding::JointState*> joints_worked_on(
    const record::Job& job, const finding::Survey& survey);

}  // namespace progress
