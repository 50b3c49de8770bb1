#include "paper/joint_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "paper/svg.h"

namespace paper {
namespace {

using record::Point;

constexpr double kDatumSize = 3.0;

std::string counted_how(const record::Joint& joint) {
  if (joint.count == 1) return "one position";
  if (std::holds_alternative<record::CircleLayout>(joint.layout)) {
    return fmt::format("{} positions on a circle, counted clockwise from the datum", joint.count);
  }
  if (std::holds_alternative<record::LineLayout>(joint.layout)) {
    return fmt::format("{} positions in a line, counted from the datum end", joint.count);
  }
  if (const auto* rectangle = std::get_if<record::RectangleLayout>(&joint.layout)) {
    const bool edge = record::is_edge_only(*rectangle, joint.count);
    return fmt::format("{} positions, {} rows by {}, counted {} from the datum corner", joint.count,
                       rectangle->rows, rectangle->columns,
                       edge ? "clockwise round the edge" : "row by row");
  }
  return fmt::format("{} positions where they were measured, the datum at position 1", joint.count);
}

class JointMap {
 public:
  JointMap(Markup& page, const record::Joint& joint, const MapContent& content)
      : page_(page),
        joint_(joint),
        content_(content),
        plan_(map_plan(joint, !content.order.empty(), content.room)) {}

  void draw() {
    page_.open("figure");
    open_drawing(page_, plan_.width, plan_.height,
                 fmt::format("Map of {}: {}", joint_.code, counted_how(joint_)));
    draw_direction();
    for (int position = 1; position <= joint_.count; ++position) draw_position(position);
    draw_datum();
    draw_turns();
    page_.close();
    page_.element("figcaption", caption());
    page_.close();
  }

 private:
  [[nodiscard]] const Point& at(int position) const {
    return plan_.points[static_cast<std::size_t>(position) - 1];
  }
  [[nodiscard]] const Point& outside(int position) const {
    return plan_.outside[static_cast<std::size_t>(position) - 1];
  }
  [[nodiscard]] bool is_ring() const {
    return std::holds_alternative<record::CircleLayout>(joint_.layout);
  }
  [[nodiscard]] bool draws_order() const { return !content_.order.empty() && plan_.order_fits; }

  void draw_position(int position) {
    const auto& point = at(position);
    draw_circle(page_, point.x, point.y, plan_.radius, "bolt");
    if (content_.held.contains(position)) {
      draw_circle(page_, point.x, point.y, plan_.radius + 0.9, "held");
    }
    if (!plan_.is_numbered(joint_.layout, position)) return;
    const auto number = std::to_string(position);
    if (plan_.numbers_inside()) {
      draw_text(
          page_,
          {point.x, point.y, plan_.number_size, "middle", joint_.count < 100 ? "number" : "fine"},
          number);
      return;
    }
    const double away =
        plan_.radius + 0.6 + 0.31 * plan_.number_size * static_cast<double>(number.size());
    draw_text(page_,
              {point.x + away * outside(position).x, point.y + away * outside(position).y,
               plan_.number_size, "middle", "number"},
              number);
  }

  // A short arrow inside the ring, the way the positions are counted.
  void draw_direction() {
    if (!is_ring() || joint_.count < 3) return;
    // The ring has radius 1 in its layout, and position 1 at its top.
    const Point middle{at(1).x, at(1).y + plan_.scale};
    const double radius = plan_.scale - plan_.radius - 5.0;
    if (radius < 9.0) return;
    const auto on_arc = [&](double degrees, double r) {
      const double turned = degrees * std::numbers::pi / 180.0;
      return Point{middle.x + r * std::sin(turned), middle.y - r * std::cos(turned)};
    };
    const auto from = on_arc(30.0, radius);
    const auto to = on_arc(70.0, radius);
    page_.empty("path",
                {{"class", "direction"},
                 {"d", fmt::format("M{} {}A{} {} 0 0 1 {} {}", in_drawing(from.x),
                                   in_drawing(from.y), in_drawing(radius), in_drawing(radius),
                                   in_drawing(to.x), in_drawing(to.y))}});
    const auto tip = on_arc(70.0 + 150.0 / radius, radius);
    draw_triangle(tip, on_arc(70.0, radius - 1.1), on_arc(70.0, radius + 1.1));
  }

  void draw_triangle(const Point& a, const Point& b, const Point& c) {
    page_.empty("polygon",
                {{"class", "solid"},
                 {"points", fmt::format("{},{} {},{} {},{}", in_drawing(a.x), in_drawing(a.y),
                                        in_drawing(b.x), in_drawing(b.y), in_drawing(c.x),
                                        in_drawing(c.y))}});
  }

  // How far the nearest other position is from where a datum in this direction would stand.
  [[nodiscard]] double clearance(const Point& direction) const {
    const double away = plan_.radius + kDatumSize + 2.0;
    const Point middle{at(1).x + away * direction.x, at(1).y + away * direction.y};
    double nearest = 1e9;
    for (int position = 2; position <= joint_.count; ++position) {
      nearest = std::min(nearest, std::hypot(at(position).x - middle.x, at(position).y - middle.y));
    }
    return nearest;
  }

  // Inside a ring, else to the left where that is free, else where there is the most room.
  [[nodiscard]] Point datum_direction() const {
    if (is_ring() && joint_.count > 2) return {0.0, 1.0};
    constexpr std::array<Point, 3> kDirections = {Point{-1.0, 0.0}, Point{0.0, -1.0},
                                                  Point{1.0, 0.0}};
    Point best = kDirections[0];
    for (const auto& direction : kDirections) {
      if (clearance(direction) > clearance(best) + 1e-9) best = direction;
      if (clearance(best) > plan_.radius + kDatumSize) break;
    }
    return best;
  }

  void draw_datum() {
    const auto direction = datum_direction();
    double gap = plan_.radius + 0.8;
    if (!plan_.numbers_inside() && !is_ring()) gap += 2.0 * plan_.number_size;
    const Point tip{at(1).x + gap * direction.x, at(1).y + gap * direction.y};
    const Point base{tip.x + kDatumSize * direction.x, tip.y + kDatumSize * direction.y};
    const Point across{-direction.y * kDatumSize / 2.0, direction.x * kDatumSize / 2.0};
    draw_triangle(tip, {base.x + across.x, base.y + across.y},
                  {base.x - across.x, base.y - across.y});
    DrawnText word{base.x, base.y, 3.0, "middle", "plain"};
    if (direction.y == 0.0) {
      word.x += 0.8 * direction.x;
      word.anchor = direction.x < 0.0 ? "end" : "start";
    } else {
      word.y += 2.2 * direction.y;
    }
    draw_text(page_, word, "datum");
  }

  void draw_turns() {
    if (!draws_order()) return;
    const double size = std::max(kLeastNumberSize, plan_.number_size * 0.8);
    for (std::size_t i = 0; i < content_.order.size(); ++i) {
      const int position = content_.order[i];
      const auto turn = std::to_string(i + 1);
      const double width = size * (0.62 * static_cast<double>(turn.size()) + 0.4);
      const double height = size * 1.2;
      const Point direction = is_ring() ? outside(position) : Point{0.0, 1.0};
      const double away = plan_.radius + 0.4 + std::abs(direction.x) * width / 2.0 +
                          std::abs(direction.y) * height / 2.0;
      const Point middle{at(position).x + away * direction.x, at(position).y + away * direction.y};
      draw_box(page_, middle.x - width / 2.0, middle.y - height / 2.0, width, height, "turn");
      draw_text(page_, {middle.x, middle.y, size, "middle", "plain"}, turn);
    }
  }

  [[nodiscard]] std::string caption() const {
    auto text = counted_how(joint_);
    if (joint_.count > 1) text += "; circle: position";
    if (draws_order()) {
      text += "; square: its turn when tightening";
    } else if (!content_.order.empty() && joint_.count > 1) {
      text += "; they stand too close to draw the tightening order, it is in the list below";
    }
    if (!content_.held.empty()) text += "; double circle: a hold is open";
    if (!plan_.every) {
      text += "; only the first of each row carries its number";
    } else if (*plan_.every > 1) {
      text += fmt::format("; only position 1 and every {}th carry their number", *plan_.every);
    }
    return text + ".";
  }

  Markup& page_;
  const record::Joint& joint_;
  const MapContent& content_;
  MapPlan plan_;
};

}  // namespace

void draw_map(Markup& page, const record::Joint& joint, const MapContent& content) {
  JointMap(page, joint, content).draw();
}

}  // namespace paper
