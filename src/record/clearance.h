#pragma once

#include <string>
#include <vector>

#include "quantity/length.h"
#include "record/in_job.h"

namespace record {

// The gap between the faces of a joint, measured at some positions with a feeler gauge.
struct Clearance {
  std::string joint;
  std::vector<int> positions;  // rising
  quantity::Length gap = quantity::Length::millimetres(0.05);
};
template <>
struct InJob<Clearance> {
  std::vector<Entry<Clearance>> clearances;
};

}  // namespace record
