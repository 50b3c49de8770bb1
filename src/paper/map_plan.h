#pragma once

#include <algorithm>
#include <optional>
#include <vector>

#include "record/joint.h"
#include "record/layout.h"

namespace paper {

// The room a map may take on paper, in millimetres.
struct MapRoom {
  double width = 176.0;
  double height = 120.0;
};

// What stands beside the facts of a joint.
inline constexpr MapRoom kMapBeside{80.0, 80.0};

// Where everything of a map stands, in millimetres from its top left corner.
struct MapPlan {
  double width = 0.0;
  double height = 0.0;
  double scale = 1.0;                  // millimetres for one unit of the layout, in x and in y
  std::vector<record::Point> points;   // of the positions, position 1 first
  std::vector<record::Point> outside;  // a unit vector for each: where its surroundings are free
  double radius = 0.0;                 // of the ring that stands for a fastener
  double number_size = 0.0;            // of the numbers
  double turn_size = 0.0;              // of the turns, where they are drawn
  record::Point datum{0.0, -1.0};      // a unit vector: where from position 1 its datum stands
  // Where the middle of each number stands beside its ring, at the end of a line; nothing for one
  // that found no room (leader_lines.h). Empty where the numbers stand inside the rings, or thinned
  // out beside them.
  std::vector<std::optional<record::Point>> labels;
  // 1: every position carries its number. More: only position 1 and those that this divides do,
  // beside the ring. Nothing where only the first of each row does.
  std::optional<int> every = 1;
  bool order_fits = false;  // there is room for the turn of each position below its number

  [[nodiscard]] bool has_all_numbers() const {
    return every == 1 &&
           std::ranges::all_of(labels, [](const auto& label) { return label.has_value(); });
  }
  [[nodiscard]] bool numbers_inside() const { return every == 1 && labels.empty(); }
  [[nodiscard]] bool is_numbered(const record::Layout& layout, int position) const;
};

// The least size of a number, in millimetres, that is still read at arm's length (about 7 point).
inline constexpr double kLeastNumberSize = 2.4;

// How far the triangle and the word of the datum reach from the ring of position 1, and how wide.
inline constexpr double kDatumSize = 3.0;
inline constexpr double kDatumReach = 0.8 + kDatumSize + 3.8;
inline constexpr double kDatumWordWidth = 10.0;

// Lays the positions of a joint out. With the tightening order a ring holds the position above and
// its turn below, where it is large enough for both. Where the positions stand so close that
// numbers would fall below kLeastNumberSize, free points keep them at the end of a line each, all
// or those on the edge of a crowd (leader_lines.h); elsewhere they thin out: on a circle, a line
// and an edge to every 2nd, 5th, 10th, 20th, 50th ..., whichever is the first that fits; on a grid
// to the first of each row.
[[nodiscard]] MapPlan map_plan(const record::Joint& joint, bool with_order, const MapRoom& room);

// The least of the rooms that a map is given (beside the facts, half a page, most of a page) in
// which everything fits: every number, and with the order every turn. Where none holds the turns,
// the least for the numbers; where none holds these, most of a page.
[[nodiscard]] MapRoom map_room(const record::Joint& joint, bool with_order);

}  // namespace paper
