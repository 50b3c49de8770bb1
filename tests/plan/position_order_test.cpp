#include "plan/position_order.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <sstream>
#include <string>
#include <utility>

#include "failure/failure.h"
#include "plan/centre_outwards.h"
#include "plan/cross_pattern.h"
#include "plan/ring.h"
#include "record/published_pattern.h"
#include "support/catch.h"
#include "support/check_values.h"
#include "support/property.h"
#include "support/published.h"

namespace position_order_test {

using plan::position_order;
using record::CircleLayout;
using record::FreeLayout;
using record::LineLayout;
using record::Point;
using record::RectangleLayout;
using Order = std::vector<int>;

namespace {

Order order_in(const std::string& cell) {
  Order order;
  std::istringstream numbers(cell);
  for (std::string number; std::getline(numbers, number, '-');) order.push_back(std::stoi(number));
  return order;
}

bool is_permutation_of_all(Order order, int count) {
  std::ranges::sort(order);
  Order all(static_cast<std::size_t>(count));
  std::iota(all.begin(), all.end(), 1);
  return order == all;
}

// Distinct points on a coarse raster, so that many distances are equal.
std::vector<Point> distinct_points(std::vector<std::pair<int, int>> given) {
  std::ranges::sort(given);
  given.erase(std::unique(given.begin(), given.end()), given.end());
  std::vector<Point> points;
  for (const auto& [x, y] : given) points.push_back({x / 4.0, y / 4.0});
  return points;
}

}  // namespace

TEST_CASE("the cross pattern equals every published sequence", "[plan][published]") {
  // Source: sequences.csv. ASME PCC-1 legacy table and wheel stars from memory; 12 positions also
  // seen (SEQ12). The two US Army patterns differ and are checked by name below.
  int checked = 0;
  Order published_counts;
  for (const auto& row : read_check_values("sequences.csv")) {
    if (row.at("kind") != "sequence" || row.at("family").starts_with("US Army")) continue;
    INFO(row.at("id") << " " << row.at("family"));
    const int count = std::stoi(row.at("bolts"));
    const auto order = position_order(CircleLayout{}, count);
    count_published(published_as(row.at("how_known")));
    CHECK(order.positions == order_in(row.at("order_by_position")));
    CHECK_THAT(order.why, ContainsSubstring("published order for " + row.at("bolts")));
    published_counts.push_back(count);
    ++checked;
  }
  CHECK(checked == 18);
  for (int count = 1; count <= 100; ++count) {
    INFO(count);
    const bool is_listed = std::ranges::find(published_counts, count) != published_counts.end();
    CHECK(plan::is_published_count(count) == is_listed);
  }
}

TEST_CASE("the cross pattern names its groups of neighbours", "[plan]") {
  CHECK(position_order(CircleLayout{}, 7).why == "cross pattern for 7");
  CHECK(position_order(CircleLayout{}, 40).why ==
        "cross pattern in groups of 4 neighbours, published order for 40");
  CHECK(position_order(CircleLayout{}, 50).why == "cross pattern in groups of 4 neighbours for 50");
  CHECK(plan::group_size(32) == 1);
  CHECK(plan::group_size(33) == 3);
  CHECK(plan::group_size(1000) == 4);
}

TEST_CASE("the second pull on a circle is across from the first", "[plan]") {
  for (int count = 4; count <= 200; ++count) {
    const auto order = plan::cross_pattern(count);
    const int size = plan::group_size(count);
    const int second_group = order[static_cast<std::size_t>(size)];
    INFO(count << ": second group starts at " << second_group);
    const double steps_across = count / 2.0;
    CHECK(order.front() == 1);
    CHECK(std::abs(second_group - 1 - steps_across) <= size);
  }
}

TEST_CASE("a line goes from the centre outwards as the published straight pattern", "[plan]") {
  // Source: sequences.csv Q015, US Army TB 9-3950-253-13&P (seen).
  for (const auto& row : read_check_values("sequences.csv")) {
    if (row.at("id") != "Q015") continue;
    const auto published = order_in(row.at("order_by_position"));
    CHECK(position_order(LineLayout{}, 9).positions == published);
    CHECK(record::published_pattern("army-straight", 9).order == published);
  }
  CHECK(position_order(LineLayout{}, 9).why == "centre outwards, sides in turn");
  CHECK(position_order(LineLayout{}, 4).positions == Order{2, 3, 1, 4});
  CHECK(position_order(LineLayout{}, 2).positions == Order{1, 2});
  CHECK(position_order(LineLayout{}, 1).positions == Order{1});
}

TEST_CASE("a rectangle goes from the centre outwards, opposite sides in turn", "[plan]") {
  // By hand: two rows of four, counted 1 2 3 4 / 5 6 7 8. The inner four come first, 7 and 2 across
  // from each other, then 6 and 3; of the corners 5 is the farthest from 3, and 4 is across from
  // it.
  const auto cover = position_order(RectangleLayout{2, 4}, 8);
  CHECK(cover.positions == Order{2, 7, 6, 3, 5, 4, 1, 8});
  CHECK(cover.why == "centre outwards, opposite sides in turn");
  CHECK(position_order(RectangleLayout{3, 3}, 9).positions.front() == 5);
}

TEST_CASE("round a rectangle the long sides' middles come first and the corners last", "[plan]") {
  // 3 x 7 round the edge: 1 top left, 4 top middle, 7 top right, 9 bottom right, 12 bottom middle,
  // 15 bottom left.
  const auto order = position_order(RectangleLayout{3, 7}, 16);
  CHECK(Order(order.positions.begin(), order.positions.begin() + 2) == Order{4, 12});
  Order last(order.positions.end() - 4, order.positions.end());
  CHECK(std::abs(last[0] - last[1]) == 8);  // diagonally opposite
  std::ranges::sort(last);
  CHECK(last == Order{1, 7, 9, 15});
  CHECK_THAT(order.why, ContainsSubstring("from the middles of the sides to the corners"));
}

TEST_CASE("free points on an even ring go as a circle counted either way round", "[plan]") {
  const auto circle = position_order(CircleLayout{}, 12).positions;
  auto points = positions_of(CircleLayout{}, 12);
  for (auto& point : points) point = {250.0 + 80.0 * point.x, -40.0 + 80.0 * point.y};
  const auto clockwise = position_order(FreeLayout{points}, 12);
  CHECK(clockwise.positions == circle);
  CHECK_THAT(clockwise.why, ContainsSubstring("cross pattern, published order for 12") &&
                                ContainsSubstring("ring that the coordinates form"));
  for (auto& point : points) point.x = -point.x;
  CHECK(position_order(FreeLayout{points}, 12).positions == circle);

  // Numbered across: 1 and 2 opposite, 3 and 4 opposite; the ring is 1 3 2 4.
  const FreeLayout across{{{0, -1}, {0, 1}, {1, 0}, {-1, 0}}};
  CHECK(position_order(across, 4).positions == Order{1, 2, 3, 4});
}

TEST_CASE("a ring measured with a tape is still a ring, an oval or a gap is not", "[plan]") {
  auto points = positions_of(CircleLayout{}, 8);
  for (std::size_t i = 0; i < points.size(); ++i) {  // 100 mm radius, to whole millimetres
    points[i] = {std::round(100.0 * points[i].x), std::round(100.0 * points[i].y)};
  }
  CHECK(plan::ring_of(points).has_value());
  auto oval = points;
  for (auto& point : oval) point.x *= 1.2;
  CHECK_FALSE(plan::ring_of(oval).has_value());
  auto gapped = points;
  gapped.pop_back();
  CHECK_FALSE(plan::ring_of(gapped).has_value());
  CHECK_FALSE(plan::ring_of({{0, 0}, {1, 0}, {0, 1}}).has_value());
}

TEST_CASE("the order that was entered for a joint wins", "[plan]") {
  record::Joint joint;
  joint.count = 4;
  joint.order = "1,4,2,3";
  CHECK(position_order(joint).positions == Order{1, 4, 2, 3});
  CHECK(position_order(joint).why == "the maker's own order");
  joint.count = 12;
  joint.order = "army-circular";
  CHECK(position_order(joint).positions == record::published_pattern("army-circular", 12).order);
  CHECK_THAT(position_order(joint).why,
             ContainsSubstring("published pattern army-circular: US Army TB 9-3950"));
  joint.order.clear();
  CHECK(position_order(joint).why == "cross pattern, published order for 12");
}

TEST_CASE("a count that the layout cannot hold has no order", "[plan]") {
  CHECK_THROWS_AS(position_order(RectangleLayout{2, 4}, 9), failure::InputError);
  CHECK_THROWS_AS(position_order(FreeLayout{{{0, 0}}}, 2), failure::InputError);
  record::Joint joint;
  joint.layout = RectangleLayout{2, 4};
  joint.count = 9;
  joint.order = "1,2,3,4,5,6,7,8,9";
  CHECK_THROWS_AS(position_order(joint), failure::InputError);
  CHECK_THROWS_AS(position_order(CircleLayout{}, 0), failure::InputError);
}

TEST_CASE("every order names every position once", "[plan]") {
  holds_always("circle and line", [] {
    const int count = *rc::gen::inRange(1, 700);
    RC_ASSERT(is_permutation_of_all(position_order(CircleLayout{}, count).positions, count));
    RC_ASSERT(is_permutation_of_all(position_order(LineLayout{}, count).positions, count));
  });
  holds_always("rectangle, filled and edge only", [] {
    const int rows = *rc::gen::inRange(2, 20);
    const int columns = *rc::gen::inRange(2, 20);
    const RectangleLayout rectangle{rows, columns};
    for (const int count : {rows * columns, 2 * (rows + columns) - 4}) {
      RC_ASSERT(is_permutation_of_all(position_order(rectangle, count).positions, count));
    }
  });
  holds_always("free points", [](const std::vector<std::pair<int, int>>& given) {
    const auto points = distinct_points(given);
    RC_PRE(!points.empty());
    const int count = static_cast<int>(points.size());
    RC_ASSERT(is_permutation_of_all(position_order(FreeLayout{points}, count).positions, count));
  });
}

TEST_CASE("where the centre lies and how large the unit is do not change the order", "[plan]") {
  holds_always("moved and scaled points", [](const std::vector<std::pair<int, int>>& given) {
    auto points = distinct_points(given);
    RC_PRE(!points.empty());
    const auto order = plan::centre_outwards(points);
    // Powers of two and whole raster steps, so that only the arithmetic inside may round.
    for (auto& point : points) point = {8.0 * point.x + 1024.0, 8.0 * point.y - 512.0};
    RC_ASSERT(plan::centre_outwards(points) == order);
  });
}

}  // namespace position_order_test
