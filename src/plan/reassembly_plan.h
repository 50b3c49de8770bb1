#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/survey.h"
#include "plan/position_order.h"
#include "plan/reassembly_order.h"
#include "plan/tightening_pass.h"
#include "plan/wrench_choice.h"

namespace plan {

// A pass with the wrench that does it.
struct PlannedPass {
  TighteningPass pass;
  std::vector<int> order;                // positions in the order in which they are done
  std::optional<WrenchSetting> setting;  // nothing where no wrench can, or none is needed
  int number = 1;        // of this pass for these positions, over both stages; each has it once
  int of = 1;            // the last number of these positions; for a snug pass, of the joint
  int restart_from = 0;  // the number of the pass from which a position that failed this one starts
                         // again; 0 where the pass cannot fail
  std::string otherwise;     // what to do with a position that fails; empty where it cannot
  bool provisional = false;  // the torque is from finding, not from a specification
};

// The positions of a joint that share a specification and have the same behind them, and what their
// passes follow.
struct PassGroup {
  std::vector<int> positions;  // rising
  Passes passes;
  // What comes before them where a final stripe was found turned (reopening_passes); with their
  // numbers it stands at the joint's turn, before a snug pass too.
  std::vector<TighteningPass> reopening = {};
};

// When a joint is worked on.
enum class Stage {
  AtItsTurn,  // at its place in the order of joints
  Final,      // at the end, once what its final value waits for is so
};

// One joint in one stage. A joint whose final value waits stands in the plan twice: snug at its
// turn, its passes in the final stage.
struct PlannedJoint {
  const finding::JointState* state = nullptr;
  Stage stage = Stage::AtItsTurn;
  std::string why;                // why it stands here
  PositionOrder positions;        // the order of the positions and what it follows
  std::vector<PassGroup> groups;  // none where it is only made snug
  // In the order in which they are done. Groups rise together and end together, so that the joint
  // is loaded evenly; the check rounds come after the last of them.
  std::vector<PlannedPass> passes;
  std::vector<std::string> warnings;  // what is to be known of it, each once

  // Snug now, with its final value left open.
  [[nodiscard]] bool is_left_open() const {
    return stage == Stage::AtItsTurn && !state->joint->final_when.empty();
  }
};

struct ReassemblyPlan {
  std::vector<PlannedJoint> joints;  // in the order of reassembly. The final stage is last, but for
                                     // what covers a joint of it: that is closed after it
  ThroughAdapter adapter;            // what every setting goes through
  std::vector<std::string> warnings;  // of all joints in their order, each once
};

// The plan for these joints on this day, in the order that the whole job gives them, all through
// one adapter where there is one. It points into the survey and the job. Throws PlanCycle.
[[nodiscard]] ReassemblyPlan reassembly_plan(const record::Job& job, const finding::Survey& survey,
                                             const std::vector<const finding::JointState*>& joints,
                                             record::Day day, const ThroughAdapter& adapter = {});

// What the plan says of these joints alone, unchanged: its order and its wrenches.
[[nodiscard]] ReassemblyPlan part_of(const ReassemblyPlan& whole,
                                     const std::vector<const finding::JointState*>& joints);

}  // namespace plan
