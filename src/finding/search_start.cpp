#include "finding/search_start.h"

#include <algorithm>
#include <vector>

#include "finding/found_torque.h"
#include "finding/specification_group.h"

namespace finding {
namespace {

using quantity::Torque;

constexpr double kShareOfMedian = 0.88;

Torque to_run(const record::Measured& test) {
  return test.prevailing ? test.prevailing->torque() : Torque::newton_metres(0.0);
}

bool is_trusted(const Finding& finding) {
  return finding.torque.best && finding.graded.grade <= Grade::B;
}

// What those that are tightened alike were found at, rising, as this test would feel it.
std::vector<Torque> found_alike(const JointState& joint, const record::Measured& test) {
  std::vector<Torque> found;
  for (const auto& group : specification_groups(joint)) {
    if (!std::ranges::binary_search(group.positions, test.position)) continue;
    for (const int position : group.positions) {
      const auto* finding = joint.at(position).finding();
      if (finding == nullptr || !is_trusted(*finding)) continue;
      found.push_back(*finding->torque.best - to_run(finding->entry->content) + to_run(test));
    }
  }
  std::ranges::sort(found);
  return found;
}

Torque middle_of(const std::vector<Torque>& rising) {
  const auto middle = rising.size() / 2;
  return rising.size() % 2 == 1 ? rising[middle] : (rising[middle - 1] + rising[middle]) / 2.0;
}

}  // namespace

std::optional<SearchStart> search_start(const JointState& joint, const record::Measured& test,
                                        const record::Wrench& wrench) {
  const auto& position = joint.at(test.position);
  if (const auto* own = position.finding();
      own != nullptr && own->torque.basis == Basis::UpperBound) {
    const Torque bound = own->torque.reference();
    return SearchStart{bound * kRestartShare, {bound, bound}, SearchStart::From::EarlierBound};
  }
  const auto found = found_alike(joint, test);
  if (found.empty()) return std::nullopt;
  const Torque lowest = found.front();
  Torque start = std::min(lowest / (1.0 + widest_fine_step(lowest) / lowest),
                          middle_of(found) * kShareOfMedian);
  if (position.window && position.window->low) {
    const double off = record::permissible_deviation(wrench).ratio();
    start = std::min(start, (*position.window->low + to_run(test)) * (1.0 - off));
  }
  return SearchStart{start, {lowest, found.back()}, SearchStart::From::Siblings};
}

}  // namespace finding
