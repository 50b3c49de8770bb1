#pragma once

#include <optional>
#include <vector>

#include "record/layout.h"

namespace paper {

// A drawing in which numbers look for room, in millimetres from its top left corner.
struct CrowdedDrawing {
  double width = 0.0;
  double height = 0.0;
  double radius = 0.0;       // of the ring round each point
  double number_size = 0.0;  // of the numbers 1, 2, 3 ...
  // Kept free of numbers and lines.
  struct Box {
    double left = 0.0;
    double top = 0.0;
    double right = 0.0;
    double bottom = 0.0;
  };
  Box kept_free = {};
};

// Where the middle of each point's number stands, so that no number lies over another, over a ring
// or over a line, and no line crosses another or a ring. Each as near to its point as the earlier
// ones leave room, the most crowded first. Where one of them finds no place in any order that was
// tried, the first has its number, and as many as find room, those on the edge of a crowd before
// those inside. Nothing where that is fewer than one in five.
[[nodiscard]] std::optional<std::vector<std::optional<record::Point>>> leader_labels(
    const std::vector<record::Point>& points, const CrowdedDrawing& drawing);

// Half the width and half the height that a number takes.
[[nodiscard]] record::Point half_of_number(int number, double size);

// A line from the ring to its number.
struct LeaderLine {
  record::Point from;  // on the ring
  record::Point to;    // short of the number
};

// Nothing where the number stands right beside its ring.
[[nodiscard]] std::optional<LeaderLine> leader_line(const record::Point& point, double radius,
                                                    const record::Point& label, int number,
                                                    double size);

}  // namespace paper
