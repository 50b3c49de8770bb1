#include <fmt/format.h>

#include <cmath>

#include "paper/joint_map.h"
#include "paper/leader_lines.h"
#include "support/occurrences.h"
#include "support/property.h"

namespace map_test {

namespace {

using paper::MapPlan;

record::Joint joint_with(const std::string& layout, int count) {
  record::Joint joint;
  joint.code = "J06";
  joint.count = count;
  joint.layout = record::read_layout(layout);
  return joint;
}

std::string drawn(const record::Joint& joint, bool with_order = false) {
  paper::Markup page;
  paper::MapContent content;
  for (int i = joint.count; with_order && i > 0; --i) content.order.push_back(i);
  paper::draw_map(page, joint, content);
  return page.take();
}

double least_distance(const MapPlan& plan) {
  double least = 1e9;
  for (std::size_t i = 0; i < plan.points.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      least = std::min(least, std::hypot(plan.points[i].x - plan.points[j].x,
                                         plan.points[i].y - plan.points[j].y));
    }
  }
  return least;
}

std::string free_layout(int count) {
  std::string text = "at";
  for (int i = 0; i < count; ++i) text += fmt::format(" {},{}", 20 * i, 37 * i * i % 101);
  return text;
}

}  // namespace

TEST_CASE("every position is drawn once with its number", "[paper]") {
  const std::vector<std::pair<std::string, int>> joints = {
      {"circle", 1},          {"circle", 2},         {"circle", 3},      {"circle", 16},
      {"circle", 32},         {"line", 2},           {"line", 12},       {"rectangle 2x8", 16},
      {"rectangle 8x12", 96}, {"rectangle 4x6", 16}, {free_layout(7), 7}};
  for (const auto& [layout, count] : joints) {
    INFO(layout << " with " << count);
    const auto map = drawn(joint_with(layout, count));
    CHECK(occurrences(map, "class=\"bolt\"") == static_cast<std::size_t>(count));
    CHECK(occurrences(map, "class=\"number\"") == static_cast<std::size_t>(count));
    CHECK(occurrences(map, ">1</text>") == 1);
    CHECK(occurrences(map, fmt::format(">{}</text>", count)) == 1);
    CHECK(occurrences(map, ">datum</text>") == 1);
    CHECK(occurrences(map, "<title>Map of J06: ") == 1);
  }
}

TEST_CASE("the turn of each position stands inside its ring", "[paper]") {
  const auto map = drawn(joint_with("rectangle 2x8", 16), true);
  CHECK(occurrences(map, "class=\"turn\"") == 16);
  CHECK(occurrences(map, ">16</text>") == 2);  // position 16 and the last turn
  CHECK_THAT(map, ContainsSubstring("on black: its turn when tightening"));
  CHECK(occurrences(drawn(joint_with("rectangle 2x8", 16)), "class=\"turn\"") == 0);
}

TEST_CASE("where numbers would be too small they thin out and the caption says how", "[paper]") {
  const auto ring = drawn(joint_with("circle", 300), true);
  CHECK(occurrences(ring, "class=\"bolt\"") == 300);
  CHECK_THAT(ring, ContainsSubstring("only position 1 and every 20th carry their number"));
  CHECK_THAT(drawn(joint_with("line", 60)),
             ContainsSubstring("only position 1 and every 5th carry their number"));
  CHECK_THAT(drawn(joint_with("circle", 72)),
             ContainsSubstring("only position 1 and every 2nd carry their number"));
  CHECK_THAT(ring, ContainsSubstring("too close to draw the tightening order"));
  CHECK(occurrences(ring, "class=\"number\"") == 15);

  paper::Markup page;
  paper::MapContent large;
  large.room = {176.0, 150.0};
  paper::draw_map(page, joint_with("rectangle 30x36", 1080), large);
  const auto grid = page.take();
  CHECK_THAT(grid, ContainsSubstring("only the first of each row carries its number"));
  CHECK(occurrences(grid, "class=\"number\"") == 30);
}

TEST_CASE("free points too close for their numbers keep every one at the end of a line",
          "[paper]") {
  // Along 400 mm two rows 5 mm apart, and a block of 3 by 4 on the same spacing.
  std::string layout = "at";
  for (int i = 0; i < 48; ++i) layout += fmt::format(" {},{}", 17 * (i / 2), 5 * (i % 2));
  for (int i = 0; i < 12; ++i) layout += fmt::format(" {},{}", 200 + 5 * (i % 4), 80 + 5 * (i / 4));
  const auto joint = joint_with(layout, 60);
  const auto room = paper::map_room(joint, false);
  const auto plan = paper::map_plan(joint, false, room);
  REQUIRE(plan.labels.size() == 60);
  CHECK(plan.number_size >= paper::kLeastNumberSize);
  std::size_t lines = 0;
  for (std::size_t i = 0; i < plan.labels.size(); ++i) {
    const auto& label = *plan.labels[i];
    const auto half = paper::half_of_number(static_cast<int>(i) + 1, plan.number_size);
    CHECK((label.x >= half.x && label.x <= plan.width - half.x));
    CHECK((label.y >= half.y && label.y <= plan.height - half.y));
    for (const auto& point : plan.points) {
      CHECK((std::abs(point.x - label.x) > half.x || std::abs(point.y - label.y) > half.y));
    }
    for (std::size_t j = 0; j < i; ++j) {
      const auto other = paper::half_of_number(static_cast<int>(j) + 1, plan.number_size);
      CHECK((std::abs(plan.labels[j]->x - label.x) >= half.x + other.x ||
             std::abs(plan.labels[j]->y - label.y) >= half.y + other.y));
    }
    if (paper::leader_line(plan.points[i], plan.radius, label, static_cast<int>(i) + 1,
                           plan.number_size)) {
      ++lines;
    }
  }
  CHECK(lines > 0);
  paper::Markup page;
  paper::MapContent content;
  content.room = room;
  paper::draw_map(page, joint, content);
  const auto map = page.take();
  CHECK(occurrences(map, "class=\"number\"") == 60);
  CHECK(occurrences(map, "class=\"leader\"") == lines);
  CHECK(map.find("carry their number") == std::string::npos);
}

TEST_CASE("a block too dense for all its numbers keeps those of its edge", "[paper]") {
  // 5 mm apart beside two points 400 mm away. As many on the edge as find room, before
  // anything inside, and position 1 always: measured, 15 of 16, 20 of 20 and 25 of 28.
  const std::vector<std::pair<int, int>> blocks = {{5, 15}, {6, 18}, {8, 22}};
  for (const auto& [side, least_on_edge] : blocks) {
    INFO(side << " by " << side);
    const auto in_block = static_cast<std::size_t>(side * side);
    std::string layout = "at";
    for (int i = 0; i < side * side; ++i) {
      layout += fmt::format(" {},{}", 5 * (i % side), 5 * (i / side));
    }
    layout += " 400,0 400,100";
    const auto joint = joint_with(layout, side * side + 2);
    const auto room = paper::map_room(joint, false);
    const auto plan = paper::map_plan(joint, false, room);
    REQUIRE(plan.labels.size() == in_block + 2);
    CHECK(plan.number_size >= paper::kLeastNumberSize);
    CHECK(plan.labels.front().has_value());
    CHECK((plan.labels[in_block] && plan.labels[in_block + 1]));
    int on_edge = 0;
    int inside = 0;
    for (int i = 0; i < side * side; ++i) {
      const bool is_edge =
          i % side == 0 || i % side == side - 1 || i / side == 0 || i / side == side - 1;
      const bool is_numbered = plan.labels[static_cast<std::size_t>(i)].has_value();
      CHECK(plan.is_numbered(joint.layout, i + 1) == is_numbered);
      if (is_numbered) ++(is_edge ? on_edge : inside);
    }
    CHECK(on_edge >= least_on_edge);
    CHECK_FALSE(plan.has_all_numbers());
    paper::Markup page;
    paper::MapContent content;
    content.room = room;
    paper::draw_map(page, joint, content);
    const auto map = page.take();
    CHECK(occurrences(map, "class=\"bolt\"") == in_block + 2);
    CHECK(occurrences(map, "class=\"number\"") == static_cast<std::size_t>(on_edge + inside) + 2);
    CHECK_THAT(map, ContainsSubstring("that found no room for their number carry none"));
  }
}

TEST_CASE("a list of points is drawn at one scale in both directions", "[paper]") {
  for (const std::string layout : {"at 0,0 400,0 400,30 0,30", "at 0,0 10,0 10,300 0,300 5,150"}) {
    const auto joint = joint_with(layout, layout.starts_with("at 0,0 4") ? 4 : 5);
    const auto given = std::get<record::FreeLayout>(joint.layout).points;
    const auto plan = paper::map_plan(joint, false, paper::map_room(joint, false));
    for (std::size_t i = 1; i < given.size(); ++i) {
      CHECK_THAT(plan.points[i].x - plan.points[0].x,
                 WithinAbs(plan.scale * (given[i].x - given[0].x), 1e-9));
      CHECK_THAT(plan.points[i].y - plan.points[0].y,
                 WithinAbs(plan.scale * (given[i].y - given[0].y), 1e-9));
    }
  }
}

TEST_CASE("a map is as small as holds every number and turn", "[paper]") {
  const auto room = [](const std::string& layout, int count) {
    return paper::map_room(joint_with(layout, count), true);
  };
  for (const int count : {1, 4, 8, 16}) {
    INFO(count);
    CHECK(room("circle", count).width == paper::kMapBeside.width);
  }
  CHECK(room("rectangle 2x8", 16).width == paper::kMapBeside.width);
  CHECK(room("rectangle 10x10", 100).width > paper::kMapBeside.width);
  const auto grid = joint_with("rectangle 10x10", 100);
  CHECK(paper::map_plan(grid, true, room("rectangle 10x10", 100)).order_fits);
}

TEST_CASE("nothing overlaps, nothing leaves the drawing, numbers stay readable", "[paper]") {
  holds_always("a map of any joint is clear", [] {
    const int kind = *rc::gen::inRange(0, 5);
    int count = *rc::gen::inRange(1, 400);
    std::string layout = kind == 0 ? "circle" : "line";
    if (kind == 2 || kind == 3) {
      const int rows = *rc::gen::inRange(2, 30);
      const int columns = *rc::gen::inRange(2, 30);
      layout = fmt::format("rectangle {}x{}", rows, columns);
      count = kind == 2 ? rows * columns : 2 * (rows + columns) - 4;
    } else if (kind == 4) {
      count = *rc::gen::inRange(1, 90);
      layout = free_layout(count);
    }
    const bool with_order = *rc::gen::arbitrary<bool>();
    const auto joint = joint_with(layout, count);
    const auto plan = paper::map_plan(joint, with_order, {});
    RC_ASSERT(plan.number_size >= paper::kLeastNumberSize);
    for (const auto& point : plan.points) {
      RC_ASSERT(point.x >= plan.radius && point.x <= plan.width - plan.radius);
      RC_ASSERT(point.y >= plan.radius && point.y <= plan.height - plan.radius);
    }
    // Only where even the smallest circle is too large may circles touch.
    if (count > 1 && plan.radius > 0.36) RC_ASSERT(2 * plan.radius <= least_distance(plan));
  });
}

}  // namespace map_test
