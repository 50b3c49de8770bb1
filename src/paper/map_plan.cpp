#include "paper/map_plan.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "paper/leader_lines.h"
#include "record/outline.h"

namespace paper {
namespace {

using record::Point;

constexpr double kMostSpacing = 14.0;  // two bolts are not drawn as far apart as the page
constexpr double kMostRadius = 5.6;
constexpr double kLeastRadius = 0.35;
constexpr double kLabelSize = 3.2;
constexpr double kLabelAtLine = 2.7;
constexpr double kShareOfSpacing = 0.48;  // a radius; rings stay apart

// What stands round the positions takes this much: ring, label, datum.
struct Margins {
  double side = 7.5;
  double top = 7.5;
  double bottom = 7.5;
};

bool is_ring(const record::Joint& joint) {
  return std::holds_alternative<record::CircleLayout>(joint.layout);
}

// Whether the datum stands inside the ring of positions; a smaller one has no room there.
bool has_datum_inside(const record::Joint& joint) { return is_ring(joint) && joint.count > 5; }

Margins margins_for(const record::Joint& joint) {
  Margins margins;
  if (joint.count >= 100) margins.side = 11.0;  // for a number of three digits beside its ring
  if (!has_datum_inside(joint)) margins.top = kMostRadius + kDatumReach + 1.0;
  return margins;
}

// Room for numbers at the end of lines, on every side.
constexpr Margins kMarginsForLines = {22.0, 24.0, 22.0};

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

// Of a number with so many digits alone inside a ring of this radius.
double size_inside(double radius, int digits) {
  return std::min(1.2 * radius, 2.5 * radius / digits);
}

// Of a number above and of a turn below in one ring, as shares of its radius: both stay inside the
// ring, and their lines do not touch (a bold digit is 0.7 of its size wide, 0.73 high).
struct SharesOfRing {
  double number = 0.84;
  double turn = 0.72;
};
SharesOfRing shares_of_ring(int digits) {
  return digits < 3 ? SharesOfRing{} : SharesOfRing{0.62, 0.56};
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

bool MapPlan::is_numbered(const record::Layout& layout, int position) const {
  if (!labels.empty()) return labels[static_cast<std::size_t>(position) - 1].has_value();
  if (position == 1) return true;
  if (every) {
    // On a ring and round an edge the last positions stand beside the first.
    const bool closed = !std::holds_alternative<record::LineLayout>(layout);
    const int to_the_first = static_cast<int>(points.size()) + 1 - position;
    return position % *every == 0 && (*every == 1 || !closed || to_the_first >= *every);
  }
  return (position - 1) % std::get<record::RectangleLayout>(layout).columns == 0;
}

namespace {

// Points, scale and size of the drawing, and how far the two nearest positions are drawn apart.
double spread_out(MapPlan& plan, const record::Joint& joint, const MapRoom& room,
                  const Margins& margins) {
  plan.points = record::positions_of(joint.layout, joint.count);
  const auto outline = record::outline_of(plan.points);
  const double spacing = least_spacing(plan.points);
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
  return joint.count > 1 ? spacing * scale : kMostSpacing;
}

// Inside a ring of positions, else above where that is free and inside the drawing, else where
// there is the most room.
void place_datum(MapPlan& plan, const record::Joint& joint) {
  if (has_datum_inside(joint)) {
    plan.datum = {0.0, 1.0};
    return;
  }
  const auto& first = plan.points.front();
  const double reach = plan.radius + kDatumReach;
  const auto clearance = [&](const Point& direction) {
    const bool upright = direction.x == 0.0;
    const double across = upright ? kDatumWordWidth / 2.0 : 2.0;
    const double along = reach + (upright ? 0.0 : kDatumWordWidth - 3.0);
    const Point end{first.x + along * direction.x, first.y + along * direction.y};
    if (std::min(end.x, first.x) < (upright ? across : 0.0) || end.x > plan.width || end.y < 0.0 ||
        end.y > plan.height) {
      return -1.0;
    }
    const Point middle{first.x + (along + plan.radius) / 2.0 * direction.x,
                       first.y + (along + plan.radius) / 2.0 * direction.y};
    double nearest = 1e9;
    for (std::size_t i = 1; i < plan.points.size(); ++i) {
      nearest = std::min(nearest, distance(plan.points[i], middle));
    }
    return nearest;
  };
  const double enough = plan.radius + kDatumReach / 2.0 + 2.0;
  constexpr std::array kDirections = {Point{0.0, -1.0}, Point{-1.0, 0.0}, Point{0.0, 1.0},
                                      Point{1.0, 0.0}};
  plan.datum = kDirections.front();
  for (const auto& direction : kDirections) {
    if (clearance(plan.datum) > enough) break;
    if (clearance(direction) > clearance(plan.datum) + 1e-9) plan.datum = direction;
  }
}

// What the datum covers.
CrowdedDrawing::Box datum_box(const MapPlan& plan) {
  const auto& first = plan.points.front();
  const bool upright = plan.datum.x == 0.0;
  const double across = upright ? kDatumWordWidth / 2.0 : 2.0;
  const double near = plan.radius + 0.8;
  const double far = plan.radius + kDatumReach + (upright ? 0.0 : kDatumWordWidth - 3.0);
  const Point a{first.x + near * plan.datum.x, first.y + near * plan.datum.y};
  const Point b{first.x + far * plan.datum.x, first.y + far * plan.datum.y};
  const double aside_x = upright ? across : 0.0;
  const double aside_y = upright ? 0.0 : across;
  return {std::min(a.x, b.x) - aside_x, std::min(a.y, b.y) - aside_y, std::max(a.x, b.x) + aside_x,
          std::max(a.y, b.y) + aside_y};
}

// Small rings with every number at the end of a line; nothing where a number finds no place.
std::optional<MapPlan> plan_with_lines(const record::Joint& joint, const MapRoom& room) {
  MapPlan plan;
  const double drawn = spread_out(plan, joint, room, kMarginsForLines);
  plan.radius = std::clamp(0.25 * drawn, kLeastRadius, 2.0);
  plan.number_size = kLabelAtLine;
  place_datum(plan, joint);
  auto labels = leader_labels(
      plan.points, {plan.width, plan.height, plan.radius, plan.number_size, datum_box(plan)});
  if (!labels) return std::nullopt;
  plan.labels = std::move(*labels);
  return plan;
}

}  // namespace

MapPlan map_plan(const record::Joint& joint, bool with_order, const MapRoom& room) {
  MapPlan plan;
  const double drawn = spread_out(plan, joint, room, margins_for(joint));
  const int digits = digits_of(joint.count);
  plan.radius = std::clamp(kShareOfSpacing * drawn, kLeastRadius, kMostRadius);
  place_datum(plan, joint);
  const auto shares = shares_of_ring(digits);
  plan.turn_size = shares.turn * plan.radius;
  plan.order_fits = joint.count > 1 && plan.turn_size >= kLeastNumberSize;
  plan.number_size = with_order && plan.order_fits ? shares.number * plan.radius
                                                   : size_inside(plan.radius, digits);
  if (plan.number_size >= kLeastNumberSize) return plan;

  if (std::holds_alternative<record::FreeLayout>(joint.layout)) {
    if (auto lines = plan_with_lines(joint, room)) return *std::move(lines);
  }
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

MapRoom map_room(const record::Joint& joint, bool with_order) {
  constexpr std::array kRooms = {kMapBeside, MapRoom{176.0, 100.0}, MapRoom{}};
  std::optional<MapRoom> holds_numbers;
  for (const auto& room : kRooms) {
    const auto plan = map_plan(joint, with_order, room);
    if (plan.has_all_numbers() && !holds_numbers) holds_numbers = room;
    if (plan.has_all_numbers() && (!with_order || plan.order_fits || joint.count == 1)) return room;
  }
  return holds_numbers.value_or(kRooms.back());
}

}  // namespace paper
