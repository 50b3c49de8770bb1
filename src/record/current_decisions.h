#pragma once

#include <vector>

#include "record/job.h"

namespace record {

// A decision with what of it is not overtaken by a later one.
struct CurrentDecision {
  const Entry<Disposition>* entry = nullptr;
  std::vector<int> positions;  // rising; empty where it is about the whole joint, or about none
};

// The decisions of a job in the order of their entry: of several about the same matter the latest.
// One that says what was done takes the place of the one that decided it.
[[nodiscard]] std::vector<CurrentDecision> current_decisions(const Job& job);

}  // namespace record
