#include "screen/joint_drawing.h"

#include <fmt/format.h>

#include <regex>
#include <sstream>

#include "support/catch.h"
#include "support/property.h"

namespace joint_drawing_test {

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string map_of(const std::string& layout, int count, std::size_t width = 60) {
  return screen::joint_drawing(record::read_layout(layout),
                               std::string(static_cast<std::size_t>(count), ' '), {width, false});
}

// Every number that stands in the text, parted from its neighbours by something else than digits.
std::vector<int> numbers_in(const std::string& text) {
  std::vector<int> numbers;
  const std::regex number("[0-9]+");
  for (auto at = std::sregex_iterator(text.begin(), text.end(), number);
       at != std::sregex_iterator(); ++at) {
    numbers.push_back(std::stoi(at->str()));
  }
  std::ranges::sort(numbers);
  return numbers;
}

std::vector<int> counted_to(int count) {
  std::vector<int> numbers;
  for (int i = 1; i <= count; ++i) numbers.push_back(i);
  return numbers;
}

}  // namespace

TEST_CASE("a map shows each position where it lies", "[screen]") {
  CHECK(map_of("line", 3) == "    01  02  03\n");
  CHECK(map_of("rectangle 2x3", 6) ==
        "    01  02  03\n"
        "\n"
        "    04  05  06\n");
  // Only the edge is bored: counted clockwise round it.
  CHECK(map_of("rectangle 3x3", 8) ==
        "    01  02  03\n"
        "\n"
        "    08      04\n"
        "\n"
        "    07  06  05\n");
  // Position 1 at twelve o'clock, then clockwise.
  CHECK(map_of("circle", 4) ==
        "          01\n"
        "\n"
        "\n"
        "    04          02\n"
        "\n"
        "\n"
        "          03\n");
  CHECK(map_of("at 0,0 60,0 30,45", 3) ==
        "    01  02\n"
        "      03\n");
}

TEST_CASE("a rectangle of many rows keeps its rows", "[screen]") {
  const auto lines = lines_of(map_of("rectangle 10x10", 100, 80));
  REQUIRE(lines.size() == 10);
  CHECK(lines[1].find("011 ") == 4);
  CHECK_THAT(lines[9], Catch::Matchers::StartsWith("    091 ") && Catch::Matchers::EndsWith("100"));
}

TEST_CASE("a mark stands behind its number", "[screen]") {
  CHECK(screen::joint_drawing(record::LineLayout{}, "! =", {60, false}) == "    01! 02  03=\n");
}

TEST_CASE("every position is on the map once and no line is wider than the page", "[screen]") {
  holds_always("whatever the layout, the count and the width", [] {
    const auto width = *rc::gen::inRange<std::size_t>(40, 200);
    const auto kind = *rc::gen::inRange(0, 4);
    auto count = *rc::gen::inRange(1, 201);
    record::Layout layout = record::CircleLayout{};
    if (kind == 1) layout = record::LineLayout{};
    if (kind == 2) {
      const auto rows = *rc::gen::inRange(2, 12);
      const auto columns = *rc::gen::inRange(2, 17);
      layout = record::RectangleLayout{rows, columns};
      count = rows * columns;
    }
    if (kind == 3) {
      record::FreeLayout free;
      for (int i = 0; i < count; ++i) {
        free.points.push_back({i * 7.0, static_cast<double>(*rc::gen::inRange(-500, 500))});
      }
      layout = free;
    }
    const auto map = screen::joint_drawing(
        layout, std::string(static_cast<std::size_t>(count), ' '), {width, false});
    RC_ASSERT(numbers_in(map) == counted_to(count));
    for (const auto& line : lines_of(map)) RC_ASSERT(line.size() <= width);
  });
}

TEST_CASE("what cannot be drawn is listed, and thousands are drawn together", "[screen]") {
  const auto forty = map_of("line", 40);
  CHECK(lines_of(forty).size() == 4);
  CHECK(lines_of(forty)[0] == "    too large to draw here; in the order of counting:");
  CHECK(numbers_in(forty) == counted_to(40));
  std::string marks(10'000, ' ');
  marks[16] = '!';
  marks[9'999] = '!';
  const auto many = screen::joint_drawing(record::CircleLayout{}, marks, {60, false});
  CHECK(many == "      1-16, 18-9999\n    ! 17, 10000\n");
}

TEST_CASE("a map of usual size takes no more rows than a screen has", "[screen]") {
  for (int count = 1; count <= 48; ++count) {
    INFO(count);
    CHECK(lines_of(map_of("circle", count, 80)).size() <= screen::kMostDrawingRows);
  }
}

}  // namespace joint_drawing_test
