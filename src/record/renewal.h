#pragma once

#include <string>
#include <vector>

#include "record/in_job.h"

namespace record {

// New fasteners that have arrived for these positions and lie ready.
struct Renewal {
  std::string joint;
  std::vector<int> positions;  // rising
};
template <>
struct InJob<Renewal> {
  std::vector<Entry<Renewal>> renewals;
};

}  // namespace record
