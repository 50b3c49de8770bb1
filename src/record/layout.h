#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace record {

// How the positions of a joint lie, as seen by the fitter; they are counted 1..n from the datum.

struct CircleLayout {  // evenly on a circle, clockwise from the datum
  bool operator==(const CircleLayout&) const = default;
};
struct LineLayout {  // evenly on a line, from the datum end
  bool operator==(const LineLayout&) const = default;
};
// Rows and columns on even spacing, at least two of each, counted row by row from the datum corner;
// or, where the count is that of the edge alone (2·(rows + columns) - 4, and not rows · columns),
// clockwise round it.
struct RectangleLayout {
  int rows = 0;
  int columns = 0;
  bool operator==(const RectangleLayout&) const = default;
};
struct Point {  // x to the right, y downwards, any one unit
  double x = 0.0;
  double y = 0.0;
  bool operator==(const Point&) const = default;
};
struct FreeLayout {  // each position where it was measured
  std::vector<Point> points;
  bool operator==(const FreeLayout&) const = default;
};
using Layout = std::variant<CircleLayout, LineLayout, RectangleLayout, FreeLayout>;

// Reads "circle", "line", "rectangle 2x8" (also 2×8), "at 0,0 40,0 40,25"; words in any case. A
// coordinate may be negative and takes a decimal point, since the comma stands between x and y.
// InputError otherwise, for a rectangle of a single row or column, and where two points coincide.
[[nodiscard]] Layout read_layout(std::string_view text);

// The canonical text; read_layout gives the same value back.
[[nodiscard]] std::string write_exact(const Layout& layout);

// InputError where the layout cannot hold this many positions: fewer than one, a rectangle whose
// rows and columns give neither count, a list of points of another length.
void check_count(const Layout& layout, int count);

// True where the positions run round the edge of a rectangle and none lies inside.
[[nodiscard]] bool is_edge_only(const RectangleLayout& rectangle, int count);

// Where each position lies, position 1 first. Circle: radius 1, position 1 at twelve o'clock. Line
// and rectangle: spacing 1. The origin is the centre of the outline except for free points, which
// stay as given. Throws as check_count does.
[[nodiscard]] std::vector<Point> positions_of(const Layout& layout, int count);

}  // namespace record
