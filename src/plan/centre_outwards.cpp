#include "plan/centre_outwards.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "plan/load_balance.h"
#include "plan/spread.h"

namespace plan {
namespace {

using record::Point;

constexpr double kEqualShareOfSpacing = 0.05;

// Not std::hypot, which guards against overflow at several times the cost of this inner loop.
double distance_between(const Point& a, const Point& b) {
  return std::sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}
double dot(const Point& a, const Point& b) { return a.x * b.x + a.y * b.y; }

// By a sweep that looks no farther ahead than the best so far. It runs askew, since rows, columns
// and lines tend to lie along the axes and would fall on few places of the sweep.
double smallest_spacing(std::vector<Point> points) {
  const Point askew{std::cos(1.0), std::sin(1.0)};
  const auto along = [&](const Point& point) { return dot(point, askew); };
  std::ranges::sort(points, {}, along);
  double smallest = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double reach = along(points[i]);
    for (std::size_t j = i + 1; j < points.size() && along(points[j]) - reach < smallest; ++j) {
      smallest = std::min(smallest, distance_between(points[i], points[j]));
    }
  }
  return smallest;
}

// The walk from the centre outwards: what is taken, what is free, and where the load leans.
class Walk {
 public:
  explicit Walk(const std::vector<Point>& points)
      : levers_(levers_of(points)),
        tolerance_(kEqualShareOfSpacing * smallest_spacing(points)),
        band_(points.size()),
        nearest_(points.size(), std::numeric_limits<double>::max()) {
    free_.resize(points.size());
    std::iota(free_.rbegin(), free_.rend(), std::size_t{0});  // the highest number wins a tie
    std::ranges::stable_sort(free_, {}, [this](std::size_t i) { return reach(i); });
    number_bands();
  }

  std::vector<int> take_all() {
    std::vector<int> order;
    while (!free_.empty()) {
      const std::size_t next = next_of_free();
      take(next);
      order.push_back(static_cast<int>(next) + 1);
    }
    return order;
  }

 private:
  double reach(std::size_t i) const { return std::hypot(levers_.arms[i].x, levers_.arms[i].y); }

  // Positions equally far from the centroid share a band; band numbers rise outwards. Within a band
  // the numbering order, highest first, is restored after the sort by a noisy distance.
  void number_bands() {
    auto start = free_.begin();
    for (std::size_t band = 0; start != free_.end(); ++band) {
      const double limit = reach(*start) + tolerance_;
      const auto end =
          std::find_if(start, free_.end(), [&](std::size_t i) { return reach(i) > limit; });
      std::sort(start, end, std::greater<>());
      for (; start != end; ++start) band_[*start] = band;
    }
  }

  bool is_on_lighter_side(std::size_t i) const {
    return dot(levers_.arms[i], resultant_) <= tolerance_ * levers_.longest;
  }

  std::size_t next_of_free() const {
    auto lighter = std::ranges::find_if(free_, [this](auto i) { return is_on_lighter_side(i); });
    // The levers of all add up to nothing, so one is always on the lighter side; only a rounding
    // error larger than the tolerance could hide it.
    if (lighter == free_.end()) lighter = free_.begin();
    std::vector<std::size_t> candidates{*lighter};
    for (auto i = std::next(lighter); i != free_.end() && band_[*i] == band_[*lighter]; ++i) {
      if (is_on_lighter_side(*i)) candidates.push_back(*i);
    }
    // With nothing taken yet there is no side to balance: start where the counting starts.
    if (taken_.empty()) return *std::ranges::min_element(candidates);
    const auto between = [this](std::size_t a, std::size_t b) {
      return distance_between(levers_.arms[a], levers_.arms[b]);
    };
    return most_spread(candidates, nearest_, taken_, tolerance_, between).value_or(*lighter);
  }

  void take(std::size_t next) {
    taken_.push_back(next);
    free_.erase(std::ranges::find(free_, next));
    resultant_.x += levers_.arms[next].x;
    resultant_.y += levers_.arms[next].y;
    for (const std::size_t i : free_) {
      if (band_[i] > band_[next]) break;
      if (band_[i] < band_[next]) continue;
      nearest_[i] = std::min(nearest_[i], distance_between(levers_.arms[i], levers_.arms[next]));
    }
  }

  Levers levers_;
  double tolerance_;  // a length
  std::vector<std::size_t> band_;
  std::vector<double> nearest_;  // to the nearest taken position of the same band
  std::vector<std::size_t> free_;
  std::vector<std::size_t> taken_;
  Point resultant_;
};

}  // namespace

std::vector<int> centre_outwards(const std::vector<Point>& points) {
  return Walk(points).take_all();
}

}  // namespace plan
