#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "finding/survey.h"
#include "plan/position_order.h"
#include "plan/tightening_pass.h"
#include "plan/wrench_choice.h"

namespace plan {

// A pass with the wrench that does it.
struct PlannedPass {
  TighteningPass pass;
  std::vector<int> order;                // positions in the order in which they are done
  std::optional<WrenchSetting> setting;  // nothing where no wrench can, or none is needed
};

struct PlannedJoint {
  const finding::JointState* state = nullptr;
  std::string why;            // why it stands here in the order
  PositionOrder positions;    // the crosswise order and what it follows
  std::string passes_origin;  // what the passes follow
  std::string passes_rule;    // a pass rule by its name; empty where none was used
  std::string passes_source;  // of that rule
  bool provisional = false;   // the torque is from finding, not from a specification
  std::vector<PlannedPass> passes;
};

struct ReassemblyPlan {
  std::vector<PlannedJoint> joints;  // in the order of reassembly
  ThroughAdapter adapter;            // what every setting goes through
  std::vector<std::string> warnings;
};

// Joints that wait for each other in a circle, so that no order can be found; the message names
// every one of them.
class PlanCycle : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// The plan for these joints on this day, in the order that the whole job gives them, all through
// one adapter where there is one. It points into the survey and the job. Throws PlanCycle.
[[nodiscard]] ReassemblyPlan reassembly_plan(const record::Job& job, const finding::Survey& survey,
                                             const std::vector<const finding::JointState*>& joints,
                                             record::Day day, const ThroughAdapter& adapter = {});

}  // namespace plan
