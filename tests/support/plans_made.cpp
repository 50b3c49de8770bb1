#include "support/plans_made.h"

#include "plan/reassembly_plan.h"

// --wrap makes of every call to plan::reassembly_plan one to __wrap_..., and of __real_... the
// function itself.
plan::ReassemblyPlan real_plan(
    const record::Job& job, const finding::Survey& survey,
    const std::vector<const finding::JointState*>& joints, record::Day day,
    const plan::ThroughAdapter& adapter) asm("__real_" BOLTWITNESS_PLAN_SYMBOL);
plan::ReassemblyPlan counted_plan(
    const record::Job& job, const finding::Survey& survey,
    const std::vector<const finding::JointState*>& joints, record::Day day,
    const plan::ThroughAdapter& adapter) asm("__wrap_" BOLTWITNESS_PLAN_SYMBOL);

namespace {

int made = 0;

}  // namespace

plan::ReassemblyPlan counted_plan(const record::Job& job, const finding::Survey& survey,
                                  const std::vector<const finding::JointState*>& joints,
                                  record::Day day, const plan::ThroughAdapter& adapter) {
  ++made;
  return real_plan(job, survey, joints, day, adapter);
}

int plans_made() { return made; }
