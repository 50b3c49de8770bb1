#pragma once

#include <optional>
#include <vector>

#include "finding/survey.h"

namespace finding {

// The positions of a joint that are tightened in the same way.
struct SpecificationGroup {
  const record::Specified* specified =
      nullptr;  // of the first of them; nothing where there is none
  std::optional<record::ToleranceWindow> window;
  std::vector<int> positions;  // rising, never empty
};

// The positions parted by procedure and condition, in the order of their first positions. One group
// for most joints.
[[nodiscard]] std::vector<SpecificationGroup> specification_groups(const JointState& joint);

}  // namespace finding
