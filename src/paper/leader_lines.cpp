#include "paper/leader_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <string>

namespace paper {
namespace {

using record::Point;
using Box = CrowdedDrawing::Box;

constexpr int kWays = 120;
constexpr std::array kSteps = {0.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 24.0};
constexpr double kClear = 0.15;     // between any two things
constexpr double kLineClear = 0.1;  // between a line and a ring that it passes
constexpr double kShortest = 1.2;   // a shorter line is not drawn
constexpr double kAlone = 9.0;      // from the next point
constexpr double kDetour = 20.0;    // millimetres that a way straight back may save
constexpr double kWideGap = 150.0 * std::numbers::pi / 180.0;  // seen from a point on the edge
constexpr int kTries = 80;
constexpr int kTriesAtEdge = 10;
constexpr std::size_t kFewest = 5;        // points of which one at least has its number
constexpr std::size_t kMostPoints = 150;  // points; more are no map for the hand

bool overlap(const Box& a, const Box& b) {
  return a.left < b.right + kClear && b.left < a.right + kClear && a.top < b.bottom + kClear &&
         b.top < a.bottom + kClear;
}

double apart(const Point& a, const Point& b) { return std::hypot(a.x - b.x, a.y - b.y); }

double distance_to_box(const Point& point, const Box& box) {
  return std::hypot(std::max({box.left - point.x, 0.0, point.x - box.right}),
                    std::max({box.top - point.y, 0.0, point.y - box.bottom}));
}

double distance_to_line(const Point& point, const LeaderLine& line) {
  const Point along{line.to.x - line.from.x, line.to.y - line.from.y};
  const double square = along.x * along.x + along.y * along.y;
  const double share =
      square == 0.0
          ? 0.0
          : std::clamp(
                ((point.x - line.from.x) * along.x + (point.y - line.from.y) * along.y) / square,
                0.0, 1.0);
  return apart(point, {line.from.x + share * along.x, line.from.y + share * along.y});
}

double side(const Point& a, const Point& b, const Point& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool cross(const LeaderLine& a, const LeaderLine& b) {
  return side(a.from, a.to, b.from) * side(a.from, a.to, b.to) <= 0.0 &&
         side(b.from, b.to, a.from) * side(b.from, b.to, a.to) <= 0.0;
}

bool runs_over(const LeaderLine& line, const Box& box) {
  const Box wide{box.left - kClear, box.top - kClear, box.right + kClear, box.bottom + kClear};
  if (distance_to_box(line.from, wide) == 0.0 || distance_to_box(line.to, wide) == 0.0) return true;
  return cross(line, {{wide.left, wide.top}, {wide.right, wide.bottom}}) ||
         cross(line, {{wide.right, wide.top}, {wide.left, wide.bottom}});
}

class Labels {
 public:
  Labels(const std::vector<Point>& points, const CrowdedDrawing& drawing)
      : points_(points), drawing_(drawing), placed_(points.size()) {}

  [[nodiscard]] bool place_all() {
    std::vector<std::size_t> all(points_.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return place_each(std::move(all));
  }

  // The first and as many on the edge as find room, then inwards whichever do. False where that is
  // fewer than every fifth, or the first is not among them.
  [[nodiscard]] bool place_from_the_edge() {
    std::vector<std::size_t> edge;
    std::vector<std::size_t> inside;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      (i == 0 || is_on_the_edge(i) ? edge : inside).push_back(i);
    }
    sort_by_crowd(edge);
    std::vector<std::optional<Placed>> best;
    std::size_t most = 0;
    for (int tries = 0; tries < kTriesAtEdge && most < edge.size(); ++tries) {
      std::ranges::fill(placed_, std::nullopt);
      std::vector<std::size_t> stuck;
      for (const auto i : edge) {
        if (!place(i)) stuck.push_back(i);
      }
      if (placed_.front() && edge.size() - stuck.size() > most) {
        most = edge.size() - stuck.size();
        best = placed_;
      }
      if (stuck.empty()) break;
      std::stable_partition(edge.begin(), edge.end(),
                            [&](std::size_t i) { return i == stuck.front(); });
    }
    if (best.empty()) return false;
    placed_ = std::move(best);
    sort_by_crowd(inside);
    std::ranges::reverse(inside);
    for (const auto i : inside) {
      if (place(i)) ++most;
    }
    return kFewest * most >= points_.size();
  }

  [[nodiscard]] std::vector<std::optional<Point>> places() const {
    std::vector<std::optional<Point>> places;
    for (const auto& each : placed_) {
      places.push_back(each ? std::optional(each->middle) : std::nullopt);
    }
    return places;
  }

 private:
  struct Placed {
    Point middle;
    Box box;
    std::optional<LeaderLine> line;
  };

  void sort_by_crowd(std::vector<std::size_t>& order) const {
    std::ranges::stable_sort(order, std::greater(), [&](std::size_t i) { return crowd(i); });
  }

  // The most crowded first; one that finds no place comes before all others in the next try.
  bool place_each(std::vector<std::size_t> order) {
    sort_by_crowd(order);
    for (int tries = 0; tries < kTries; ++tries) {
      std::ranges::fill(placed_, std::nullopt);
      const auto stuck = std::ranges::find_if(order, [&](std::size_t i) { return !place(i); });
      if (stuck == order.end()) return true;
      std::rotate(order.begin(), stuck, stuck + 1);
    }
    return false;
  }

  // Its near ones leave a wide gap in which nothing stands.
  [[nodiscard]] bool is_on_the_edge(std::size_t i) const {
    std::vector<double> directions;
    for (std::size_t j = 0; j < points_.size(); ++j) {
      if (j == i || apart(points_[i], points_[j]) >= kAlone) continue;
      directions.push_back(std::atan2(points_[j].y - points_[i].y, points_[j].x - points_[i].x));
    }
    if (directions.size() < 2) return true;
    std::ranges::sort(directions);
    double widest = directions.front() + 2.0 * std::numbers::pi - directions.back();
    for (std::size_t k = 1; k < directions.size(); ++k) {
      widest = std::max(widest, directions[k] - directions[k - 1]);
    }
    return widest >= kWideGap;
  }

  // How closely the others stand round it; the innermost of a crowd has the most.
  [[nodiscard]] double crowd(std::size_t i) const {
    double sum = 0.0;
    for (std::size_t j = 0; j < points_.size(); ++j) {
      if (j != i) sum += std::pow(apart(points_[i], points_[j]), -2.0);
    }
    return sum;
  }

  // A way to go from a point, and how far beyond its ring.
  struct Way {
    Point direction;
    double step = 0.0;
    double cost = 0.0;
  };

  // Away from the others, the nearest of them foremost.
  [[nodiscard]] Point outward(std::size_t i) const {
    Point sum;
    for (std::size_t j = 0; j < points_.size(); ++j) {
      if (j == i) continue;
      const double cube = std::pow(apart(points_[i], points_[j]), 3.0);
      sum.x += (points_[i].x - points_[j].x) / cube;
      sum.y += (points_[i].y - points_[j].y) / cube;
    }
    const double length = std::hypot(sum.x, sum.y);
    return length < 1e-9 ? Point{0.0, -1.0} : Point{sum.x / length, sum.y / length};
  }

  // Its number may stand right beside it: no line of another has to pass there.
  [[nodiscard]] bool is_alone(std::size_t i) const {
    return std::ranges::none_of(points_, [&](const Point& other) {
      return &other != &points_[i] && apart(other, points_[i]) < kAlone;
    });
  }

  // All ways, the best first: short ones and those that lead away from the others.
  [[nodiscard]] std::vector<Way> ways_from(std::size_t i) const {
    const auto away = outward(i);
    std::vector<Way> ways;
    for (const double step : kSteps) {
      if (step == 0.0 && !is_alone(i)) continue;
      for (int direction = 0; direction < kWays; ++direction) {
        const double turned = 2.0 * std::numbers::pi * direction / kWays;
        const Point way{std::sin(turned), -std::cos(turned)};
        ways.push_back({way, step, step + kDetour * (1.0 - way.x * away.x - way.y * away.y)});
      }
    }
    std::ranges::stable_sort(ways, {}, &Way::cost);
    return ways;
  }

  bool place(std::size_t i) {
    const int number = static_cast<int>(i) + 1;
    const auto half = half_of_number(number, drawing_.number_size);
    for (const auto& [way, step, cost] : ways_from(i)) {
      // As far as the box takes to stand clear of its own ring in this direction.
      const double reach = std::min(half.x / std::max(std::abs(way.x), 1e-9),
                                    half.y / std::max(std::abs(way.y), 1e-9));
      const double away = drawing_.radius + 1.5 * kClear + reach + step;
      const Point middle{points_[i].x + away * way.x, points_[i].y + away * way.y};
      Placed tried{middle,
                   {middle.x - half.x, middle.y - half.y, middle.x + half.x, middle.y + half.y},
                   leader_line(points_[i], drawing_.radius, middle, number, drawing_.number_size)};
      if (!is_free(i, tried)) continue;
      placed_[i] = tried;
      return true;
    }
    return false;
  }

  [[nodiscard]] bool is_free(std::size_t i, const Placed& tried) const {
    const auto& box = tried.box;
    if (box.left < kClear || box.top < kClear || box.right > drawing_.width - kClear ||
        box.bottom > drawing_.height - kClear || overlap(box, drawing_.kept_free)) {
      return false;
    }
    if (tried.line && runs_over(*tried.line, drawing_.kept_free)) return false;
    for (std::size_t j = 0; j < points_.size(); ++j) {
      if (distance_to_box(points_[j], box) < drawing_.radius + kClear) return false;
      if (j == i) continue;
      if (tried.line && distance_to_line(points_[j], *tried.line) < drawing_.radius + kLineClear) {
        return false;
      }
      if (placed_[j] && collide(tried, *placed_[j])) return false;
    }
    return true;
  }

  static bool collide(const Placed& a, const Placed& b) {
    return overlap(a.box, b.box) || (a.line && runs_over(*a.line, b.box)) ||
           (b.line && runs_over(*b.line, a.box)) || (a.line && b.line && cross(*a.line, *b.line));
  }

  const std::vector<Point>& points_;
  const CrowdedDrawing& drawing_;
  std::vector<std::optional<Placed>> placed_;
};

}  // namespace

Point half_of_number(int number, double size) {
  // A bold digit of the sheet's letters is 0.7 of their size wide; the box is as high as a line.
  return {0.35 * size * static_cast<double>(std::to_string(number).size()), 0.59 * size};
}

std::optional<LeaderLine> leader_line(const Point& point, double radius, const Point& label,
                                      int number, double size) {
  const double away = apart(point, label);
  const Point way{(label.x - point.x) / away, (label.y - point.y) / away};
  const auto half = half_of_number(number, size);
  const double reach =
      std::min(half.x / std::max(std::abs(way.x), 1e-9), half.y / std::max(std::abs(way.y), 1e-9));
  const double end = away - reach - 0.3;
  if (end - radius < kShortest) return std::nullopt;
  return LeaderLine{{point.x + radius * way.x, point.y + radius * way.y},
                    {point.x + end * way.x, point.y + end * way.y}};
}

std::optional<std::vector<std::optional<Point>>> leader_labels(const std::vector<Point>& points,
                                                               const CrowdedDrawing& drawing) {
  if (points.size() > kMostPoints) return std::nullopt;
  Labels labels(points, drawing);
  if (!labels.place_all() && !labels.place_from_the_edge()) return std::nullopt;
  return labels.places();
}

}  // namespace paper
