#pragma once

#include <string>
#include <vector>

#include "audit/audit.h"
#include "progress/open_list.h"

namespace words {

// What a person does next: the command as it is typed, and why.
struct NextStep {
  std::string command;  // without "boltwitness"; empty where nothing is left to do
  std::string why;
};

// The first of: a joint to enter; a hold point; a test under way; what has not come out while
// nothing has been put back; what the audit holds up or was decided and not done; what is open;
// a look that repeats.
[[nodiscard]] NextStep next_step(const progress::Reassembly& reassembly,
                                 const std::vector<progress::OpenPoint>& open,
                                 const audit::Audit& audit);

}  // namespace words
