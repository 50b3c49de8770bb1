#pragma once

#include <optional>
#include <string>
#include <vector>

#include "record/in_job.h"
#include "record/running_amount.h"

namespace record {

// The final mark across fastener and part, drawn after the final value.
struct FinalStripe {
  std::string joint;
  std::vector<int> positions;            // rising
  bool teardown_mark_wiped = true;       // else two marks stand on it and one is wrong
  std::optional<RunningAmount> counter;  // what the machine's counter showed, for the re-check
};
template <>
struct InJob<FinalStripe> {
  std::vector<Entry<FinalStripe>> stripes;
};

}  // namespace record
