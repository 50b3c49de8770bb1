#include "plan/load_balance.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <sstream>
#include <string>
#include <utility>

#include "plan/centre_outwards.h"
#include "plan/position_order.h"
#include "support/catch.h"
#include "support/check_values.h"
#include "support/property.h"

namespace load_balance_test {

using plan::load_balance;
using record::Point;

namespace {

std::vector<int> counting_order(std::size_t count) {
  std::vector<int> order(count);
  std::iota(order.begin(), order.end(), 1);
  return order;
}

void is_better_than_counting(const record::Layout& layout, int count) {
  INFO(write_exact(layout) << ", " << count << " positions");
  const auto points = positions_of(layout, count);
  const auto ours = load_balance(points, plan::position_order(layout, count).positions);
  const auto counted = load_balance(points, counting_order(points.size()));
  CHECK(ours.mean < counted.mean);
  CHECK(ours.worst <= counted.worst + 1e-12);
}

// Points as a person would number them on a part: from left to right.
std::vector<Point> scattered(std::mt19937& generator, std::size_t count) {
  const auto coordinate = [&] { return static_cast<double>(generator() % 4096U); };
  std::vector<Point> points;
  for (std::size_t i = 0; i < count; ++i) points.push_back({coordinate(), coordinate()});
  const auto place = [](const Point& point) { return std::pair(point.x, point.y); };
  std::ranges::sort(points, {}, place);
  points.erase(std::unique(points.begin(), points.end()), points.end());
  return points;
}

}  // namespace

TEST_CASE("the load balance is the resultant lever over count and largest lever", "[plan]") {
  // By hand, square with corners at lever 1: counted round, the resultants are 1, √2, 1, 0;
  // crosswise 1, 0, 1, 0. Each is divided by n r = 4.
  const auto square = positions_of(record::CircleLayout{}, 4);
  const auto round = load_balance(square, {1, 2, 3, 4});
  CHECK_THAT(round.worst, WithinAbs(std::sqrt(2.0) / 4.0, 1e-12));
  CHECK_THAT(round.mean, WithinAbs((2.0 + std::sqrt(2.0)) / 16.0, 1e-12));
  const auto across = load_balance(square, {1, 3, 2, 4});
  CHECK_THAT(across.worst, WithinAbs(0.25, 1e-12));
  CHECK_THAT(across.mean, WithinAbs(0.125, 1e-12));
  CHECK(load_balance({{7.0, 7.0}}, {1}).worst == 0.0);
}

TEST_CASE("the computed order loads a joint more evenly than the counting order", "[plan]") {
  for (int count = 4; count <= 120; ++count) {
    is_better_than_counting(record::CircleLayout{}, count);
  }
  for (int count = 3; count <= 60; ++count) is_better_than_counting(record::LineLayout{}, count);
  for (int rows = 2; rows <= 9; ++rows) {
    for (int columns = 2; columns <= 12; ++columns) {
      const record::RectangleLayout rectangle{rows, columns};
      is_better_than_counting(rectangle, rows * columns);
      is_better_than_counting(rectangle, 2 * (rows + columns) - 4);
    }
  }
}

TEST_CASE("no published order loads a circle more evenly than the computed one", "[plan]") {
  // Source: sequences.csv, all sequences for circles; the straight pattern against a line.
  int compared = 0;
  for (const auto& row : read_check_values("sequences.csv")) {
    if (row.at("kind") != "sequence") continue;
    INFO(row.at("id") << " " << row.at("family"));
    const int count = std::stoi(row.at("bolts"));
    const bool is_line = row.at("family").find("straight") != std::string::npos;
    const record::Layout layout =
        is_line ? record::Layout(record::LineLayout{}) : record::Layout(record::CircleLayout{});
    std::vector<int> published;
    std::istringstream numbers(row.at("order_by_position"));
    for (std::string number; std::getline(numbers, number, '-');) {
      published.push_back(std::stoi(number));
    }
    const auto points = positions_of(layout, count);
    const auto ours = load_balance(points, plan::position_order(layout, count).positions);
    const auto theirs = load_balance(points, published);
    CHECK(ours.worst <= theirs.worst + 1e-12);
    CHECK(ours.mean <= theirs.mean + 1e-12);
    ++compared;
  }
  CHECK(compared == 20);
}

TEST_CASE("from the centre outwards the load stays within its promised bound", "[plan]") {
  // The bound of centre_outwards.h for every k: |S(k)| <= √(1.2 k) r. No bound better than the
  // counting order can hold for every layout, since a counting order may happen to be the best one.
  holds_always("any free points", [](std::vector<std::pair<int, int>> given) {
    std::ranges::sort(given);
    given.erase(std::unique(given.begin(), given.end()), given.end());
    RC_PRE(!given.empty());
    std::vector<Point> points;
    for (const auto& [x, y] : given) points.push_back({x / 8.0, y / 64.0});
    const auto levers = plan::levers_of(points);
    Point resultant;
    double pulls = 0.0;
    for (const int position : plan::centre_outwards(points)) {
      const auto& arm = levers.arms[static_cast<std::size_t>(position) - 1];
      resultant = {resultant.x + arm.x, resultant.y + arm.y};
      pulls += 1.0;
      const double bound = std::sqrt(1.2 * pulls) * levers.longest;
      RC_ASSERT(std::hypot(resultant.x, resultant.y) <= bound * (1.0 + 1e-9));
    }
  });
}

TEST_CASE("scattered positions are loaded more evenly than from left to right", "[plan]") {
  std::mt19937 generator(20240611U);  // the same points on every run and every machine
  for (std::size_t count = 5; count <= 60; ++count) {
    for (int repeat = 0; repeat < 5; ++repeat) {
      const auto points = scattered(generator, count);
      INFO(points.size() << " points, repeat " << repeat);
      const auto ours = load_balance(points, plan::centre_outwards(points));
      const auto counted = load_balance(points, counting_order(points.size()));
      CHECK(ours.mean < counted.mean);
      CHECK(ours.worst < counted.worst);
    }
  }
}

TEST_CASE("any number of free positions from 2 to 10,000 is loaded more evenly", "[plan]") {
  std::mt19937 generator(20250520U);
  for (const std::size_t count : {2U, 3U, 4U, 100U, 500U, 2000U, 10000U}) {
    auto points = scattered(generator, count);
    INFO(points.size() << " points");
    const auto order =
        plan::position_order(record::FreeLayout{points}, static_cast<int>(points.size()));
    const auto ours = load_balance(points, order.positions);
    const auto counted = load_balance(points, counting_order(points.size()));
    if (count < 5) {  // two cannot differ, and of three or four the counting order may be as good
      CHECK(ours.mean <= counted.mean + 1e-12);
    } else {
      CHECK(ours.mean < counted.mean / 4.0);
      CHECK(ours.worst < counted.worst / 4.0);
    }
  }
}

}  // namespace load_balance_test
