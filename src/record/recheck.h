#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/angle.h"
#include "record/in_job.h"
#include "record/running_amount.h"

namespace record {

// A later look at the final stripes: aligned, or turned apart by an angle.
struct Recheck {
  std::string joint;
  std::vector<int> positions;             // rising
  std::optional<quantity::Angle> turned;  // nothing where the stripe is aligned
  std::optional<RunningAmount> counter;   // what the machine's counter showed
};
template <>
struct InJob<Recheck> {
  std::vector<Entry<Recheck>> rechecks;
};

}  // namespace record
