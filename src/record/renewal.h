#pragma once

#include <string>
#include <vector>

namespace record {

// New fasteners that have arrived for these positions and lie ready.
struct Renewal {
  std::string joint;
  std::vector<int> positions;  // rising
};

}  // namespace record
