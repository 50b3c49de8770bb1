#include "paper/map_plan.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "record/outline.h"

namespace paper {
namespace {

using record::Point;

constexpr double kMostSpacing = 26.0;  // two bolts are not drawn as far apart as the page
constexpr double kMostRadius = 5.6;
constexpr double kLeastRadius = 0.35;
constexpr double kLabelSize = 3.2;

// What stands round the positions takes this much: circle and label, the turns, the datum.
struct Margins {
  double side = 21.0;
  double top = 8.5;
  double bottom = 8.5;
};

Margins margins_for(const record::Joint& joint, bool with_order) {
  Margins margins;
  if (with_order) margins.bottom = 14.5;
  if (with_order && std::holds_alternative<record::CircleLayout>(joint.layout)) margins.top = 14.5;
  if (std::holds_alternative<record::FreeLayout>(joint.layout))
    margins.top = 15.0;  // the datum may stand above
  return margins;
}

double distance(const Point& a, const Point& b) { return std::hypot(a.x - b.x, a.y - b.y); }

// The least distance between two of the points; a sweep from left to right.
double least_spacing(std::vector<Point> points) {
  std::ranges::sort(points, {}, [](const Point& point) { return std::pair(point.x, point.y); });
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size() && points[j].x - points[i].x < least; ++j) {
      least = std::min(least, distance(points[i], points[j]));
    }
  }
  return least;
}

const record::RectangleLayout* grid_of(const record::Joint& joint) {
  const auto* rectangle = std::get_if<record::RectangleLayout>(&joint.layout);
  return rectangle != nullptr && !record::is_edge_only(*rectangle, joint.count) ? rectangle
                                                                                : nullptr;
}

// Away from the middle; on a line above it, on a grid to the left, where its rows begin.
std::vector<Point> outside_of(const record::Joint& joint, const std::vector<Point>& points) {
  if (std::holds_alternative<record::LineLayout>(joint.layout)) {
    return std::vector<Point>(points.size(), Point{0.0, -1.0});
  }
  if (grid_of(joint) != nullptr) return std::vector<Point>(points.size(), Point{-1.0, 0.0});
  Point middle;
  for (const auto& point : points) {
    middle.x += point.x / static_cast<double>(points.size());
    middle.y += point.y / static_cast<double>(points.size());
  }
  std::vector<Point> outside;
  for (const auto& point : points) {
    const double away = distance(point, middle);
    outside.push_back(away < 1e-6
                          ? Point{0.0, -1.0}
                          : Point{(point.x - middle.x) / away, (point.y - middle.y) / away});
  }
  return outside;
}

// Of a number with so many digits inside a circle of this radius.
double size_inside(double radius, int digits) {
  return std::min(1.2 * radius, 2.5 * radius / digits);
}

// The first of 2, 5, 10, 20, 50 ... that leaves each label the room it takes.
int thinned(double spacing, double label) {
  for (int power = 1;; power *= 10) {
    for (const int step : {2, 5, 10}) {
      if (step * power * spacing >= label) return step * power;
    }
  }
}

int digits_of(int count) { return count < 10 ? 1 : 1 + digits_of(count / 10); }

}  // namespace

MapRoom room_for(const record::Joint& joint, MapRoom usual) {
  constexpr int kMany = 24;
  constexpr double kMostOfAPage = 150.0;
  if (joint.count > kMany) usual = {std::max(usual.width, MapRoom{}.width), kMostOfAPage};
  return usual;
}

bool MapPlan::is_numbered(const record::Layout& layout, int position) const {
  if (position == 1) return true;
  if (every) {
    // On a ring and round an edge the last positions stand beside the first.
    const bool closed = !std::holds_alternative<record::LineLayout>(layout);
    const int to_the_first = static_cast<int>(points.size()) + 1 - position;
    return position % *every == 0 && (*every == 1 || !closed || to_the_first >= *every);
  }
  return (position - 1) % std::get<record::RectangleLayout>(layout).columns == 0;
}

MapPlan map_plan(const record::Joint& joint, bool with_order, const MapRoom& room) {
  MapPlan plan;
  plan.points = record::positions_of(joint.layout, joint.count);
  const auto outline = record::outline_of(plan.points);
  const double spacing = least_spacing(plan.points);
  const auto margins = margins_for(joint, with_order);
  double& scale = plan.scale;
  if (joint.count > 1) {
    scale = kMostSpacing / spacing;
    const double wide = room.width - 2.0 * margins.side;
    const double high = room.height - margins.top - margins.bottom;
    if (outline.width > 0.0) scale = std::min(scale, wide / outline.width);
    if (outline.height > 0.0) scale = std::min(scale, high / outline.height);
  }
  plan.width = room.width;
  plan.height = outline.height * scale + margins.top + margins.bottom;
  const double from_left = (room.width - outline.width * scale) / 2.0;
  for (auto& point : plan.points) {
    point = {from_left + (point.x - outline.left) * scale,
             margins.top + (point.y - outline.top) * scale};
  }
  plan.outside = outside_of(joint, plan.points);

  const double drawn = joint.count > 1 ? spacing * scale : kMostSpacing;
  // Outside a ring the turn has room of its own; elsewhere it stands below the circle.
  const bool ring = std::holds_alternative<record::CircleLayout>(joint.layout);
  const double share = with_order && !ring ? 0.29 : 0.45;
  plan.radius = std::clamp(share * drawn, kLeastRadius, kMostRadius);
  const int digits = digits_of(joint.count);
  plan.number_size = size_inside(plan.radius, digits);
  plan.order_fits = plan.number_size >= kLeastNumberSize;
  if (plan.order_fits) return plan;

  // Without room for the turns the circles may be as large as without the order.
  plan.radius = std::clamp(0.45 * drawn, kLeastRadius, kMostRadius);
  plan.number_size = size_inside(plan.radius, digits);
  if (plan.number_size >= kLeastNumberSize) return plan;

  plan.radius = std::clamp(0.3 * drawn, kLeastRadius, kMostRadius);
  plan.number_size = kLabelSize;
  if (const auto* grid = grid_of(joint); grid != nullptr && drawn >= kLabelSize) {
    plan.every.reset();
  } else if (grid != nullptr) {
    plan.every = grid->columns * thinned(drawn, kLabelSize);
  } else {
    plan.every = thinned(drawn, 0.62 * digits * kLabelSize + 1.2);
  }
  return plan;
}

}  // namespace paper
