#include "finding/specification_group.h"

#include <algorithm>

namespace finding {
namespace {

bool same_work(const record::Specified* a, const record::Specified* b) {
  if (a == b) return true;
  return a != nullptr && b != nullptr && a->condition == b->condition &&
         a->procedure == b->procedure;
}

}  // namespace

std::vector<SpecificationGroup> specification_groups(const JointState& joint) {
  std::vector<SpecificationGroup> groups;
  for (const auto& position : joint.positions) {
    const auto same = std::ranges::find_if(groups, [&](const SpecificationGroup& group) {
      return same_work(group.specified, position.specified);
    });
    auto& group =
        same == groups.end()
            ? groups.emplace_back(SpecificationGroup{position.specified, position.window, {}})
            : *same;
    group.positions.push_back(position.position);
  }
  return groups;
}

}  // namespace finding
