#pragma once

#include <string>

#include "audit/audit.h"
#include "paper/document.h"
#include "plan/reassembly_plan.h"
#include "progress/progress.h"

namespace paper {

// What the order of reassembly is written from: the plan, and how far it has been carried out.
struct SequenceContent {
  const record::Job& job;
  const finding::Survey& survey;
  const plan::ReassemblyPlan& plan;
  const progress::Progress& progress;
  const audit::Audit& audit;
};

// The plan to work from at the machine: first what to see to before, what goes back beside the
// bolts and the order of the joints, then a page for each joint (sequence_joint.h). What is done
// already is ticked in print.
[[nodiscard]] std::string sequence_page(const SequenceContent& content, const Imprint& imprint);

}  // namespace paper
