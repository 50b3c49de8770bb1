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
  const auto repeated = std::ranges::unique(positions);
  positions.erase(repeated.begin(), repeated.end());
  return positions;
}

}  // namespace record
