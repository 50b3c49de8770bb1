#include "plan/load_balance.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace plan {

Levers levers_of(const std::vector<record::Point>& points) {
  record::Point centroid;
  for (const auto& point : points) {
    centroid.x += point.x / static_cast<double>(points.size());
    centroid.y += point.y / static_cast<double>(points.size());
  }
  Levers levers;
  for (const auto& point : points) {
    const record::Point arm{point.x - centroid.x, point.y - centroid.y};
    levers.arms.push_back(arm);
    levers.longest = std::max(levers.longest, std::hypot(arm.x, arm.y));
  }
  return levers;
}

LoadBalance load_balance(const std::vector<record::Point>& points, const std::vector<int>& order) {
  assert(order.size() == points.size());
  const Levers levers = levers_of(points);
  if (levers.longest == 0.0) return {};
  const auto count = static_cast<double>(points.size());
  record::Point resultant;
  LoadBalance balance;
  for (const int position : order) {
    const auto& arm = levers.arms.at(static_cast<std::size_t>(position) - 1);
    resultant.x += arm.x;
    resultant.y += arm.y;
    const double moment = std::hypot(resultant.x, resultant.y) / (count * levers.longest);
    balance.worst = std::max(balance.worst, moment);
    balance.mean += moment / count;
  }
  return balance;
}

}  // namespace plan
