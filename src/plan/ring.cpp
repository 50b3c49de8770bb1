#include "plan/ring.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <numeric>

#include "plan/load_balance.h"

namespace plan {
namespace {

constexpr double kRadiusShare = 0.05;
constexpr double kStepShare = 0.25;
constexpr std::size_t kFewest = 4;

bool is_about_a_circle(const std::vector<record::Point>& arms) {
  const auto reach = [](const record::Point& arm) { return std::hypot(arm.x, arm.y); };
  double mean = 0.0;
  for (const auto& arm : arms) mean += reach(arm) / static_cast<double>(arms.size());
  return std::ranges::all_of(
      arms, [&](const auto& arm) { return std::abs(reach(arm) - mean) <= kRadiusShare * mean; });
}

// `directions` are angles in rising order. Turning each back by its share of the full turn leaves
// the deviation from even division, up to a common start, which is their mean direction.
bool is_about_even(const std::vector<double>& directions) {
  const double step = 2.0 * std::numbers::pi / static_cast<double>(directions.size());
  const auto turned_back = [&](std::size_t i) {
    return std::polar(1.0, directions[i] - step * static_cast<double>(i));
  };
  std::complex<double> start;
  for (std::size_t i = 0; i < directions.size(); ++i) start += turned_back(i);
  for (std::size_t i = 0; i < directions.size(); ++i) {
    if (std::abs(std::arg(turned_back(i) * std::conj(start))) > kStepShare * step) return false;
  }
  return true;
}

}  // namespace

std::optional<std::vector<int>> ring_of(const std::vector<record::Point>& points) {
  if (points.size() < kFewest) return std::nullopt;
  const Levers levers = levers_of(points);
  if (!is_about_a_circle(levers.arms)) return std::nullopt;

  const auto direction = [&](int position) {
    const auto& arm = levers.arms[static_cast<std::size_t>(position) - 1];
    return std::atan2(arm.y, arm.x);
  };
  std::vector<int> ring(points.size());
  std::iota(ring.begin(), ring.end(), 1);
  std::ranges::sort(ring, {}, direction);
  std::vector<double> directions;
  std::ranges::transform(ring, std::back_inserter(directions), direction);
  if (!is_about_even(directions)) return std::nullopt;

  std::rotate(ring.begin(), std::ranges::find(ring, 1), ring.end());
  if (ring.back() < ring[1]) std::reverse(ring.begin() + 1, ring.end());
  return ring;
}

}  // namespace plan
