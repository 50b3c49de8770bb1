#include "record/layout.h"

#include <algorithm>
#include <string>
#include <utility>

#include "failure/failure.h"
#include "support/catch.h"
#include "support/property.h"

namespace layout_test {

using record::CircleLayout;
using record::FreeLayout;
using record::LineLayout;
using record::Point;
using record::read_layout;
using record::RectangleLayout;

namespace {

void is_refused(const std::string& text, const std::string& because) {
  INFO(text);
  CHECK_THROWS_WITH(read_layout(text), ContainsSubstring(because));
  CHECK_THROWS_AS(read_layout(text), failure::InputError);
}

void lie_at(const std::vector<Point>& found, const std::vector<Point>& expected) {
  REQUIRE(found.size() == expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    INFO("position " << i + 1);
    CHECK_THAT(found[i].x, WithinAbs(expected[i].x, 1e-12));
    CHECK_THAT(found[i].y, WithinAbs(expected[i].y, 1e-12));
  }
}

}  // namespace

TEST_CASE("a layout is read as the fitter writes it", "[record]") {
  CHECK(read_layout("circle") == record::Layout(CircleLayout{}));
  CHECK(read_layout(" Line ") == record::Layout(LineLayout{}));
  for (const auto* text : {"rectangle 2x8", "Rectangle 2 x 8", "rectangle  2X8", "RECTANGLE 2×8"}) {
    INFO(text);
    CHECK(read_layout(text) == record::Layout(RectangleLayout{2, 8}));
  }
  CHECK(read_layout("at 0,0 40,0  40,-12.5\t\u22123,.5") ==
        record::Layout(FreeLayout{{{0, 0}, {40, 0}, {40, -12.5}, {-3, 0.5}}}));
}

TEST_CASE("what is no layout is refused with what to write instead", "[record]") {
  is_refused("", "expected one of: circle, line, rectangle 2x8, at 0,0");
  is_refused("oval", "expected one of: circle");
  is_refused("circle 12", "expected one of: circle");
  is_refused("rectangle", "rows x columns");
  is_refused("rectangle 16", "rows x columns");
  is_refused("rectangle 1x8", "a single row is a line");
  is_refused("rectangle 8x1", "a single row is a line");
  is_refused("rectangle 0x8", "whole number from 1");
  is_refused("rectangle 2x", "whole number from 1");
  is_refused("rectangle 2x8x2", "whole number from 1");
  is_refused("rectangle -2x8", "whole number from 1");
  is_refused("rectangle 99999x99999", "whole number from 1");
  is_refused("at", "no point follows");
  is_refused("at 40", "is no point");
  is_refused("at 1,5,2", "is no point");
  is_refused("at 0,0 40mm,0", "expected nothing there");
  is_refused("at 0,", "no number here");
  is_refused("at 0,--3", "minus sign");
  is_refused("at nan,0", "number");
}

TEST_CASE("two positions at one place are refused by name", "[record]") {
  is_refused("at 0,0 40,25 7,7 40.0,25", "positions 2 and 4 both lie at 40,25");
  is_refused("at -0,0 0,-0", "positions 1 and 2 both lie at 0,0");
}

TEST_CASE("a layout cannot hold a count that its shape does not give", "[record]") {
  CHECK_NOTHROW(check_count(RectangleLayout{4, 6}, 24));
  CHECK_NOTHROW(check_count(RectangleLayout{4, 6}, 16));
  CHECK_THROWS_WITH(check_count(RectangleLayout{4, 6}, 20),
                    ContainsSubstring("rectangle 4x6 cannot hold 20 positions") &&
                        ContainsSubstring("24, or 16 round its edge"));
  CHECK_NOTHROW(check_count(FreeLayout{{{0, 0}, {1, 0}}}, 2));
  CHECK_THROWS_WITH(check_count(FreeLayout{{{0, 0}, {1, 0}}}, 3),
                    ContainsSubstring("2 points are given for 3 positions"));
  CHECK_NOTHROW(check_count(CircleLayout{}, 1));
  CHECK_THROWS_AS(check_count(CircleLayout{}, 0), failure::InputError);
  CHECK_THROWS_AS(positions_of(LineLayout{}, -1), failure::InputError);
}

TEST_CASE("positions lie where the datum and the counting direction put them", "[record]") {
  // By hand from the header: x to the right, y downwards, clockwise from twelve o'clock.
  lie_at(positions_of(CircleLayout{}, 4), {{0, -1}, {1, 0}, {0, 1}, {-1, 0}});
  lie_at(positions_of(LineLayout{}, 4), {{-1.5, 0}, {-0.5, 0}, {0.5, 0}, {1.5, 0}});
  lie_at(positions_of(RectangleLayout{2, 3}, 6),
         {{-1, -0.5}, {0, -0.5}, {1, -0.5}, {-1, 0.5}, {0, 0.5}, {1, 0.5}});
  lie_at(positions_of(RectangleLayout{3, 3}, 8),
         {{-1, -1}, {0, -1}, {1, -1}, {1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}});
  lie_at(positions_of(FreeLayout{{{5, 6}, {7, 8}}}, 2), {{5, 6}, {7, 8}});
}

TEST_CASE("round a rectangle neighbours are one spacing apart", "[record]") {
  for (const auto& [rows, columns] : {std::pair(3, 3), {3, 7}, {6, 4}}) {
    const RectangleLayout rectangle{rows, columns};
    const int count = 2 * (rows + columns) - 4;
    CHECK(is_edge_only(rectangle, count));
    CHECK_FALSE(is_edge_only(rectangle, rows * columns));
    const auto points = positions_of(rectangle, count);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const Point& next = points[(i + 1) % points.size()];
      CHECK_THAT(std::hypot(points[i].x - next.x, points[i].y - next.y), WithinAbs(1.0, 1e-12));
    }
  }
  CHECK_FALSE(is_edge_only(RectangleLayout{2, 8}, 16));
}

TEST_CASE("the written layout reads back to the same value", "[record]") {
  for (const auto* text : {"circle", "line", "rectangle 2x8", "at 0,0 40,0 40,25 -12.5,0.125"}) {
    CHECK(write_exact(read_layout(text)) == text);
  }
  holds_always("free points read back exactly", [](const std::vector<std::pair<int, int>>& given) {
    FreeLayout layout;
    for (const auto& [x, y] : given) layout.points.push_back({x / 1024.0, y / 1000.0});
    const auto place = [](const Point& p) { return std::pair(p.x, p.y); };
    std::ranges::sort(layout.points, {}, place);
    layout.points.erase(std::unique(layout.points.begin(), layout.points.end()),
                        layout.points.end());
    RC_PRE(!layout.points.empty());
    RC_ASSERT(read_layout(write_exact(layout)) == record::Layout(layout));
  });
}

}  // namespace layout_test
