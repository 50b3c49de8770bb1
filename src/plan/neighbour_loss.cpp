#include "plan/neighbour_loss.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fastener/settling.h"

namespace plan {
namespace {

using quantity::Percent;

double distance(const record::Point& one, const record::Point& other) {
  return std::hypot(one.x - other.x, one.y - other.y);
}

// The numbers of the at most two positions nearest to one.
std::vector<int> nearest_two(const std::vector<record::Point>& points, int position) {
  constexpr double kSame = 1e-9;  // distances on an even ring differ in their last digits
  const auto at = [&](int other) { return points[static_cast<std::size_t>(other - 1)]; };
  std::vector<int> others;
  for (int other = 1; other <= static_cast<int>(points.size()); ++other) {
    if (other != position) others.push_back(other);
  }
  std::ranges::stable_sort(others, [&](int one, int other) {
    return distance(at(one), at(position)) < distance(at(other), at(position)) - kSame;
  });
  if (others.size() > 2) others.resize(2);
  return others;
}

// The passes that bring some positions to a torque, and whether a check round follows the last.
struct Rising {
  std::vector<const PlannedPass*> passes;
  bool checked = false;
};

Rising rising_passes(const PlannedJoint& joint, const PassGroup& group) {
  Rising rising;
  for (const auto& planned : joint.passes) {
    if (planned.order.empty() ||
        std::ranges::find(group.positions, planned.order.front()) == group.positions.end()) {
      continue;
    }
    const bool by_angle = planned.pass.kind == record::PassKind::Angle;
    if (by_angle || (planned.pass.kind == record::PassKind::Torque && planned.pass.aim)) {
      rising.passes.push_back(&planned);
      rising.checked = false;
    }
    if (planned.pass.kind == record::PassKind::Loosen) rising.passes.clear();
    if (planned.pass.kind == record::PassKind::Check) rising.checked = true;
  }
  return rising;
}

std::optional<NeighbourLoss> loss_of(const PlannedJoint& joint, const PassGroup& group) {
  const auto rising = rising_passes(joint, group);
  if (rising.passes.empty() || rising.passes.back()->order.size() < 2) return std::nullopt;
  const auto& last = *rising.passes.back();
  NeighbourLoss loss;
  loss.joint = &joint;
  loss.positions = group.positions;
  loss.checked = rising.checked;
  loss.by_angle = last.pass.kind == record::PassKind::Angle;
  if (rising.passes.size() > 1 && !loss.by_angle) {
    const auto& before = *rising.passes[rising.passes.size() - 2];
    loss.raised = 1.0 - before.pass.aim->torque / last.pass.aim->torque;
  }
  const auto later =
      later_neighbours(joint.state->joint->layout, joint.state->joint->count, last.order);
  loss.most_later = *std::ranges::max_element(later);
  for (std::size_t i = 0; i < later.size(); ++i) {
    if (later[i] == loss.most_later) loss.worst.push_back(last.order[i]);
  }
  loss.lost = fastener::neighbour_loss(loss.most_later, loss.raised).high;
  loss.left = fastener::neighbour_loss(loss.most_later, loss.lost.ratio()).high;
  return loss;
}

}  // namespace

std::vector<int> later_neighbours(const record::Layout& layout, int count,
                                  const std::vector<int>& order) {
  const auto points = record::positions_of(layout, count);
  std::vector<int> later;
  for (auto here = order.begin(); here != order.end(); ++here) {
    const auto neighbours = nearest_two(points, *here);
    later.push_back(static_cast<int>(std::ranges::count_if(neighbours, [&](int neighbour) {
      return std::find(here, order.end(), neighbour) != order.end();
    })));
  }
  return later;
}

std::vector<NeighbourLoss> neighbour_losses(const ReassemblyPlan& plan) {
  std::vector<NeighbourLoss> losses;
  for (const auto& joint : plan.joints) {
    for (const auto& group : joint.groups) {
      if (auto loss = loss_of(joint, group)) losses.push_back(std::move(*loss));
    }
  }
  return losses;
}

}  // namespace plan
