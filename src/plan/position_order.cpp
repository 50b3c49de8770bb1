#include "plan/position_order.h"

#include <fmt/format.h>

#include <utility>

#include "plan/centre_outwards.h"
#include "plan/cross_pattern.h"
#include "plan/ring.h"
#include "record/stated_order.h"

namespace plan {
namespace {

std::string name_of_cross_pattern(int count) {
  std::string name = "cross pattern";
  if (const int size = group_size(count); size > 1) {
    name += fmt::format(" in groups of {} neighbours", size);
  }
  return name +
         fmt::format("{} for {}", is_published_count(count) ? ", published order" : "", count);
}

PositionOrder order_on_circle(int count) {
  return {cross_pattern(count), name_of_cross_pattern(count)};
}

PositionOrder order_on_ring(const std::vector<int>& ring) {
  PositionOrder order = order_on_circle(static_cast<int>(ring.size()));
  for (int& position : order.positions) position = ring[static_cast<std::size_t>(position) - 1];
  order.why += ", on the ring that the coordinates form";
  return order;
}

std::string why_centre_outwards(const record::Layout& layout, int count) {
  if (std::holds_alternative<record::LineLayout>(layout)) {
    return "centre outwards, sides in turn";
  }
  const auto* rectangle = std::get_if<record::RectangleLayout>(&layout);
  if (rectangle && is_edge_only(*rectangle, count)) {
    return "opposite sides in turn, from the middles of the sides to the corners";
  }
  return "centre outwards, opposite sides in turn";
}

}  // namespace

PositionOrder position_order(const record::Layout& layout, int count) {
  check_count(layout, count);
  if (std::holds_alternative<record::CircleLayout>(layout)) return order_on_circle(count);
  const auto points = positions_of(layout, count);
  if (std::holds_alternative<record::FreeLayout>(layout)) {
    if (const auto ring = ring_of(points)) return order_on_ring(*ring);
  }
  return {centre_outwards(points), why_centre_outwards(layout, count)};
}

PositionOrder position_order(const record::Joint& joint) {
  if (joint.order.empty()) return position_order(joint.layout, joint.count);
  record::check_count(joint.layout, joint.count);
  auto stated = record::read_stated_order(joint.order, joint.count);
  return {std::move(stated.positions),
          stated.pattern == nullptr ? std::string("the maker's own order")
                                    : fmt::format("published pattern {}: {}", stated.pattern->name,
                                                  stated.pattern->source)};
}

}  // namespace plan
