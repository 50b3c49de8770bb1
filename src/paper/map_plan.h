#pragma once

#include <optional>
#include <vector>

#include "record/joint.h"
#include "record/layout.h"

namespace paper {

// The room a map may take on paper, in millimetres.
struct MapRoom {
  double width = 176.0;
  double height = 90.0;
};

// So much room, and the height of most of a page where there are many positions.
[[nodiscard]] MapRoom room_for(const record::Joint& joint, MapRoom usual);

// Where everything of a map stands, in millimetres from its top left corner.
struct MapPlan {
  double width = 0.0;
  double height = 0.0;
  double scale = 1.0;                  // millimetres for one unit of the layout
  std::vector<record::Point> points;   // of the positions, position 1 first
  std::vector<record::Point> outside;  // a unit vector for each: where its surroundings are free
  double radius = 0.0;                 // of the circle that stands for a fastener
  double number_size = 0.0;            // of the numbers
  // 1: every position carries its number, inside its circle. More: only position 1 and those that
  // this divides do, beside the circle. Nothing where only the first of each row does.
  std::optional<int> every = 1;
  bool order_fits = false;  // there is room for the turn of each position beside it

  [[nodiscard]] bool numbers_inside() const { return every == 1; }
  [[nodiscard]] bool is_numbered(const record::Layout& layout, int position) const;
};

// The least size of a number, in millimetres, that is still read at arm's length (about 7 point).
inline constexpr double kLeastNumberSize = 2.4;

// Lays the positions of a joint out. With the tightening order the circles are drawn smaller, so
// that the turn of each fits beside it. Where the positions stand so close that numbers would fall
// below kLeastNumberSize they thin out: on a circle, a line, an edge and free points to every 2nd,
// 5th, 10th, 20th, 50th ..., whichever is the first that fits; on a grid to the first of each row.
[[nodiscard]] MapPlan map_plan(const record::Joint& joint, bool with_order, const MapRoom& room);

}  // namespace paper
