#include "paper/joint_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "paper/leader_lines.h"
#include "paper/svg.h"

namespace paper {
namespace {

using record::Point;

// "2nd", "5th", "10th".
std::string ordinal(int number) {
  const int last = number % 10;
  const bool teen = number / 10 % 10 == 1;
  return fmt::format(
      "{}{}", number,
      teen || last > 3 ? "th" : std::array{"th", "st", "nd", "rd"}[static_cast<std::size_t>(last)]);
}

std::string counted_how(const record::Joint& joint) {
  if (joint.count == 1) return "one position";
  if (std::holds_alternative<record::CircleLayout>(joint.layout)) {
    return fmt::format("{} positions on a circle, clockwise from the datum as you face it",
                       joint.count);
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
    page_.open("figure", {{"class", "map"}});
    open_drawing(page_, plan_.width, plan_.height,
                 fmt::format("Map of {}: {}", joint_.code, counted_how(joint_)));
    draw_direction();
    for (int position = 1; position <= joint_.count; ++position) draw_position(position);
    draw_datum();
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
      const bool with_turn = draws_order();
      draw_text(page_,
                {point.x, point.y - (with_turn ? 0.42 * plan_.radius : 0.0), plan_.number_size,
                 "middle", joint_.count < 100 || with_turn ? "number" : "fine"},
                number);
      if (with_turn) draw_turn(position);
      return;
    }
    if (!plan_.labels.empty()) {
      draw_label(position, number);
      return;
    }
    const double away =
        plan_.radius + 0.6 + 0.31 * plan_.number_size * static_cast<double>(number.size());
    draw_text(page_,
              {point.x + away * outside(position).x, point.y + away * outside(position).y,
               plan_.number_size, "middle", "number"},
              number);
  }

  // At the end of a line, or right beside its ring.
  void draw_label(int position, const std::string& number) {
    const auto& label = *plan_.labels[static_cast<std::size_t>(position) - 1];
    if (const auto line =
            leader_line(at(position), plan_.radius, label, position, plan_.number_size)) {
      draw_line(page_, line->from.x, line->from.y, line->to.x, line->to.y, "leader");
    }
    draw_text(page_, {label.x, label.y, plan_.number_size, "middle", "number"}, number);
  }

  // The lower part of the ring, black, with the turn of the position in white.
  void draw_turn(int position) {
    const auto turn = std::ranges::find(content_.order, position);
    if (turn == content_.order.end()) return;
    const auto& point = at(position);
    const double r = plan_.radius;
    const double chord = 0.06 * r;  // below the middle
    const double half = std::sqrt(r * r - chord * chord);
    page_.empty("path",
                {{"class", "solid"},
                 {"d", fmt::format("M{} {}A{} {} 0 0 0 {} {}Z", in_drawing(point.x - half),
                                   in_drawing(point.y + chord), in_drawing(r), in_drawing(r),
                                   in_drawing(point.x + half), in_drawing(point.y + chord))}});
    draw_text(page_, {point.x, point.y + 0.5 * r, plan_.turn_size, "middle", "turn"},
              std::to_string(turn - content_.order.begin() + 1));
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

  void draw_datum() {
    const auto& direction = plan_.datum;
    double gap = plan_.radius + 0.8;
    if (plan_.labels.empty() && !plan_.numbers_inside() && outside(1) == direction) {
      gap += 1.3 * plan_.number_size;
    }
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

  [[nodiscard]] std::string caption() const {
    auto text = counted_how(joint_);
    if (draws_order()) {
      text += "; on black: its turn when tightening";
    } else if (!content_.order.empty() && joint_.count > 1) {
      text += "; they stand too close to draw the tightening order, it is in the rows below";
    }
    if (!content_.held.empty()) text += "; double ring: a hold is open";
    if (!plan_.labels.empty() && !plan_.has_all_numbers()) {
      text += "; those that found no room for their number carry none";
    }
    if (!plan_.every) {
      text += "; only the first of each row carries its number";
    } else if (*plan_.every > 1) {
      text +=
          fmt::format("; only position 1 and every {} carry their number", ordinal(*plan_.every));
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
