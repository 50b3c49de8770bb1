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

// The passes that bring some positions to their final value, since they were last slack, and
// whether a check round follows the last.
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
    switch (planned.pass.kind) {
      case record::PassKind::Torque:
        if (!planned.pass.aim) break;
        [[fallthrough]];
      case record::PassKind::Angle:
        rising.passes.push_back(&planned);
        rising.checked = false;
        break;
      case record::PassKind::Check:
        rising.checked = rising.checked || !planned.pass.checks_angle;
        break;
      case record::PassKind::Loosen:
      case record::PassKind::Renew:  // what was reached before is gone
        rising = {};
        break;
      case record::PassKind::Snug:
        break;
    }
  }
  return rising;
}

// Of these positions alone, as if the joint had no others.
LoadBalance balance_of_some(const std::vector<record::Point>& points,
                            const std::vector<int>& order) {
  auto rising = order;
  std::ranges::sort(rising);
  std::vector<record::Point> some;
  some.reserve(rising.size());
  for (const int position : rising) some.push_back(points[static_cast<std::size_t>(position) - 1]);
  std::vector<int> ranks;
  ranks.reserve(order.size());
  for (const int position : order) {
    ranks.push_back(static_cast<int>(std::ranges::lower_bound(rising, position) - rising.begin()) +
                    1);
  }
  return load_balance(some, ranks);
}

std::optional<NeighbourLoss> loss_of(const PlannedJoint& joint, const PassGroup& group) {
  const auto rising = rising_passes(joint, group);
  if (rising.passes.empty() || rising.passes.back()->order.size() < 2) return std::nullopt;
  const auto& last = *rising.passes.back();
  const auto& layout = joint.state->joint->layout;
  const auto points = record::positions_of(layout, joint.state->joint->count);
  auto as_counted = last.order;
  std::ranges::sort(as_counted);
  NeighbourLoss loss{.joint = &joint,
                     .positions = group.positions,
                     .by_angle = last.pass.kind == record::PassKind::Angle,
                     .worst = {},
                     .lost = Percent::of_hundred(0.0),
                     .balance = balance_of_some(points, last.order),
                     .as_counted = balance_of_some(points, as_counted),
                     .checked = rising.checked,
                     .left = Percent::of_hundred(0.0)};
  if (!loss.by_angle && rising.passes.size() > 1) {
    const auto& before = *rising.passes[rising.passes.size() - 2];
    if (before.pass.aim) loss.raised = 1.0 - before.pass.aim->torque / last.pass.aim->torque;
  }
  const auto later = later_neighbours(layout, joint.state->joint->count, last.order);
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
