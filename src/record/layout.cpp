#include "record/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>
#include <string>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using failure::InputError;
using quantity::quoted;

constexpr int kMostInARow = 5000;  // keeps rows · columns within an int
constexpr std::string_view kBlanks = " \t\n";
constexpr std::string_view kExpected =
    "expected one of: circle, line, rectangle 2x8, at 0,0 40,0 40,25";

// The first word, in small letters, and what follows it.
struct FirstWord {
  std::string word;
  std::string_view rest;
};

FirstWord first_word(std::string_view text) {
  const std::string_view bare = quantity::trimmed(text);
  const auto end = std::min(bare.find_first_of(kBlanks), bare.size());
  FirstWord result{std::string(bare.substr(0, end)), quantity::trimmed(bare.substr(end))};
  std::ranges::transform(result.word, result.word.begin(), quantity::lower);
  return result;
}

RectangleLayout read_rectangle(std::string_view size, std::string_view whole) {
  for (const std::string_view sign : {"x", "X", "×"}) {
    const auto at = size.find(sign);
    if (at == std::string_view::npos) continue;
    const RectangleLayout rectangle{
        quantity::read_count(size.substr(0, at), kMostInARow),
        quantity::read_count(size.substr(at + sign.size()), kMostInARow)};
    if (rectangle.rows < 2 || rectangle.columns < 2) {
      throw InputError(fmt::format("{}: a single row is a line; write \"line\"", quoted(whole)));
    }
    return rectangle;
  }
  throw InputError(fmt::format(
      "{}: expected rows x columns after \"rectangle\", such as rectangle 2x8", quoted(whole)));
}

double read_coordinate(std::string_view text) {
  for (const std::string_view minus : {"-", "\u2212"}) {
    if (!text.starts_with(minus)) continue;
    const double size = quantity::read_number(text.substr(minus.size()));
    return size == 0.0 ? 0.0 : -size;
  }
  return quantity::read_number(text);
}

Point read_point(std::string_view text, std::string_view whole) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos || text.find(',', comma + 1) != std::string_view::npos) {
    throw InputError(
        fmt::format("{}: {} is no point; expected x,y with one comma and decimal points, such as "
                    "40,25 or 12.5,-8",
                    quoted(whole), quoted(text)));
  }
  return {read_coordinate(text.substr(0, comma)), read_coordinate(text.substr(comma + 1))};
}

void refuse_coinciding(const std::vector<Point>& points) {
  std::vector<std::size_t> by_place(points.size());
  std::iota(by_place.begin(), by_place.end(), std::size_t{0});
  const auto place = [&](std::size_t i) { return std::pair(points[i].x, points[i].y); };
  std::ranges::stable_sort(by_place, {}, place);
  const auto twin = std::ranges::adjacent_find(by_place, {}, place);
  if (twin == by_place.end()) return;
  throw InputError(fmt::format(
      "positions {} and {} both lie at {},{}; expected every position at a place of its own",
      *twin + 1, *(twin + 1) + 1, quantity::write_exact(points[*twin].x),
      quantity::write_exact(points[*twin].y)));
}

FreeLayout read_points(std::string_view list, std::string_view whole) {
  FreeLayout layout;
  while (!list.empty()) {
    const auto end = std::min(list.find_first_of(kBlanks), list.size());
    layout.points.push_back(read_point(list.substr(0, end), whole));
    list = quantity::trimmed(list.substr(end));
  }
  if (layout.points.empty()) {
    throw InputError(fmt::format(
        "{}: no point follows \"at\"; expected one for each position, such as at 0,0 40,0 40,25",
        quoted(whole)));
  }
  refuse_coinciding(layout.points);
  return layout;
}

int count_of_edge(const RectangleLayout& rectangle) {
  return 2 * (rectangle.rows + rectangle.columns) - 4;
}

std::vector<Point> on_circle(int count) {
  std::vector<Point> points;
  points.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    const double turned = 2.0 * std::numbers::pi * i / count;
    points.push_back({std::sin(turned), -std::cos(turned)});
  }
  return points;
}

std::vector<Point> on_line(int count) {
  std::vector<Point> points;
  points.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) points.push_back({i - (count - 1) / 2.0, 0.0});
  return points;
}

std::vector<Point> on_rectangle(const RectangleLayout& rectangle, int count) {
  std::vector<Point> points;
  const int right = rectangle.columns - 1;
  const int bottom = rectangle.rows - 1;
  const auto add = [&](int column, int row) {
    points.push_back({column - right / 2.0, row - bottom / 2.0});
  };
  if (is_edge_only(rectangle, count)) {
    for (int column = 0; column < right; ++column) add(column, 0);
    for (int row = 0; row < bottom; ++row) add(right, row);
    for (int column = right; column > 0; --column) add(column, bottom);
    for (int row = bottom; row > 0; --row) add(0, row);
  } else {
    for (int row = 0; row <= bottom; ++row) {
      for (int column = 0; column <= right; ++column) add(column, row);
    }
  }
  return points;
}

}  // namespace

Layout read_layout(std::string_view text) {
  const auto [word, rest] = first_word(text);
  if (word == "circle" && rest.empty()) return CircleLayout{};
  if (word == "line" && rest.empty()) return LineLayout{};
  if (word == "rectangle") return read_rectangle(rest, text);
  const auto rows_and_columns = quantity::trimmed(text);
  if (!rows_and_columns.empty() && quantity::is_digit(rows_and_columns.front())) {
    return read_rectangle(rows_and_columns, text);  // "2x8"
  }
  if (word == "at") return read_points(rest, text);
  throw InputError(fmt::format("{} is no layout; {}", quoted(text), kExpected));
}

std::string write_exact(const Layout& layout) {
  if (std::holds_alternative<CircleLayout>(layout)) return "circle";
  if (std::holds_alternative<LineLayout>(layout)) return "line";
  if (const auto* rectangle = std::get_if<RectangleLayout>(&layout)) {
    return fmt::format("rectangle {}x{}", rectangle->rows, rectangle->columns);
  }
  std::string text = "at";
  for (const Point& point : std::get<FreeLayout>(layout).points) {
    text += ' ' + quantity::write_exact(point.x) + ',' + quantity::write_exact(point.y);
  }
  return text;
}

void check_count(const Layout& layout, int count) {
  if (count < 1) {
    throw InputError(fmt::format("{} positions; expected at least one", count));
  }
  if (const auto* rectangle = std::get_if<RectangleLayout>(&layout)) {
    const int all = rectangle->rows * rectangle->columns;
    if (count == all || is_edge_only(*rectangle, count)) return;
    const int edge = count_of_edge(*rectangle);
    throw InputError(fmt::format("{} cannot hold {} positions; expected {}{}", write_exact(layout),
                                 count, all,
                                 edge == all ? "" : fmt::format(", or {} round its edge", edge)));
  }
  if (const auto* free = std::get_if<FreeLayout>(&layout)) {
    if (free->points.size() == static_cast<std::size_t>(count)) return;
    throw InputError(fmt::format("{} points are given for {} positions; expected one for each",
                                 free->points.size(), count));
  }
}

bool is_edge_only(const RectangleLayout& rectangle, int count) {
  return count == count_of_edge(rectangle) && count != rectangle.rows * rectangle.columns;
}

std::vector<Point> positions_of(const Layout& layout, int count) {
  check_count(layout, count);
  if (std::holds_alternative<CircleLayout>(layout)) return on_circle(count);
  if (std::holds_alternative<LineLayout>(layout)) return on_line(count);
  if (const auto* rectangle = std::get_if<RectangleLayout>(&layout)) {
    return on_rectangle(*rectangle, count);
  }
  return std::get<FreeLayout>(layout).points;
}

}  // namespace record
