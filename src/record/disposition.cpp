#include "record/disposition.h"

#include <algorithm>

namespace record {

std::vector<int> positions_of(const Disposition& disposition) {
  std::vector<int> positions;
  if (disposition.position) positions.push_back(*disposition.position);
  for (const auto& part : disposition.parts) {
    if (part.position) positions.push_back(*part.position);
  }
  std::ranges::sort(positions);
  positions.erase(std::unique(positions.begin(), positions.end()), positions.end());
  return positions;
}

}  // namespace record
