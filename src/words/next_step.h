#pragma once

#include <string>
#include <vector>

#include "audit/audit.h"
#include "plan/reassembly_order.h"
#include "progress/open_list.h"

namespace words {

// What a person does next: the command as it is typed, and why.
struct NextStep {
  std::string command;  // without "boltwitness"; empty where nothing is left to do
  std::string why;
  std::string wrench = {};  // that it takes, and its setting; empty where it takes none
  std::string joint = {};   // at whose fasteners it is done; empty where at none
};

// The first of: a joint to enter; a hold point; a test under way; joints that wait for each other
// in a circle; what has not come out while putting back has not begun (taking_apart.h), and
// before it the passes of a joint that was tightened after the last came out; the passes of the
// joint that was worked on last; what the audit holds up or was decided and not done
// (settling_step.h); what is open; a look that repeats. What cannot be reached at this moment has
// its cover opened first, and what is behind a hold point that one.
[[nodiscard]] NextStep next_step(const progress::Reassembly& reassembly,
                                 const std::vector<progress::OpenPoint>& open,
                                 const audit::Audit& audit, record::Moment now,
                                 const plan::PlanCycle* circle = nullptr);

}  // namespace words
