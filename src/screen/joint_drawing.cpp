#include "screen/joint_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "record/address.h"
#include "record/outline.h"

namespace screen {
namespace {

using record::Point;

constexpr std::size_t kIndent = 4;
// A character cell is about twice as high as it is wide.
constexpr double kCellHeight = 2.0;
// Below this many columns a radius, a circle does not look like one.
constexpr double kLeastCircle = 3.0 * kCellHeight;

// The numbers of a joint with their marks, all of one width.
class MarkedNumbers {
 public:
  explicit MarkedNumbers(const std::string& marks)
      : marks_(marks), digits_(std::max<std::size_t>(2, std::to_string(marks.size()).size())) {}

  [[nodiscard]] std::size_t width() const { return digits_ + 1; }
  [[nodiscard]] std::size_t count() const { return marks_.size(); }
  [[nodiscard]] std::string text(std::size_t index) const {
    return fmt::format("{:0{}}{}", index + 1, digits_, marks_[index]);
  }

 private:
  const std::string& marks_;
  std::size_t digits_;
};

std::string without_trailing_blanks(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

struct Cell {
  std::size_t row = 0;
  std::size_t column = 0;
  std::size_t index = 0;
};

// How many columns and rows of the terminal stand for a unit of the layout.
struct Scale {
  double columns = 0.0;
  double rows = 0.0;
};

// The same length both ways, as the eye sees it.
Scale true_to_shape(double columns) { return {columns, columns / kCellHeight}; }

// Every number in its cell at this scale; nothing where two of them would touch.
std::optional<std::vector<Cell>> cells_at(const Scale& scale, const std::vector<Point>& points,
                                          const record::Outline& extent, std::size_t number_width) {
  std::vector<Cell> cells;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto row = std::lround((points[i].y - extent.top) * scale.rows);
    const auto column = std::lround((points[i].x - extent.left) * scale.columns);
    cells.push_back({static_cast<std::size_t>(row), static_cast<std::size_t>(column), i});
  }
  std::ranges::sort(cells, [](const Cell& a, const Cell& b) {
    return std::tie(a.row, a.column) < std::tie(b.row, b.column);
  });
  for (std::size_t i = 1; i < cells.size(); ++i) {
    if (cells[i].row == cells[i - 1].row && cells[i].column - cells[i - 1].column <= number_width) {
      return std::nullopt;
    }
  }
  return cells;
}

// The scales to try, rising. Even spacing stays even, and a circle the same on both sides, only in
// whole cells both ways. A rectangle with too many rows for its true shape is drawn with one line a
// row: its rows and columns are what is counted.
std::vector<Scale> scales_to_try(const record::Layout& layout, const record::Outline& extent,
                                 std::size_t columns) {
  double most = static_cast<double>(columns);
  if (extent.width > 0.0) most = static_cast<double>(columns) / extent.width;
  if (extent.height > 0.0) {
    most = std::min(most, kCellHeight * static_cast<double>(kMostDrawingRows - 1) / extent.height);
  }
  std::vector<Scale> scales;
  const auto in_steps = [&](double least, double step) {
    for (double scale = least; scale <= most; scale += step) {
      scales.push_back(true_to_shape(scale));
    }
  };
  if (std::holds_alternative<record::LineLayout>(layout)) {
    in_steps(1.0, 1.0);
  } else if (std::holds_alternative<record::RectangleLayout>(layout)) {
    in_steps(kCellHeight, kCellHeight);
    if (extent.height > static_cast<double>(kMostDrawingRows - 1)) return scales;
    for (double scale = 1.0; scale * extent.width <= static_cast<double>(columns); ++scale) {
      scales.push_back({scale, 1.0});
    }
  } else if (std::holds_alternative<record::CircleLayout>(layout)) {
    in_steps(kLeastCircle, kCellHeight);
  } else {
    constexpr int kSteps = 60;
    in_steps(most / kSteps, most / kSteps);
  }
  return scales;
}

std::string drawn(const std::vector<Cell>& cells, const MarkedNumbers& numbers) {
  std::string text;
  std::string line;
  std::size_t row = 0;
  for (const auto& cell : cells) {
    for (; row < cell.row; ++row) {
      text += without_trailing_blanks(std::move(line)) + '\n';
      line.clear();
    }
    line.resize(kIndent + cell.column, ' ');
    line += numbers.text(cell.index);
  }
  return text + without_trailing_blanks(std::move(line)) + '\n';
}

std::string listed(const MarkedNumbers& numbers, const words::Page& page) {
  std::string text = words::wrapped("too large to draw here; in the order of counting:", page.width,
                                    std::string(kIndent, ' '), std::string(kIndent, ' '));
  std::string line(kIndent, ' ');
  for (std::size_t i = 0; i < numbers.count(); ++i) {
    if (line.size() > kIndent && line.size() + numbers.width() > page.width) {
      text += without_trailing_blanks(std::move(line)) + '\n';
      line.assign(kIndent, ' ');
    }
    line += numbers.text(i) + ' ';
  }
  return text + without_trailing_blanks(std::move(line)) + '\n';
}

std::string drawn_together(const std::string& marks, const words::Page& page) {
  std::map<char, std::vector<int>> by_mark;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    by_mark[marks[i]].push_back(static_cast<int>(i) + 1);
  }
  std::string text;
  for (const auto& [mark, positions] : by_mark) {
    std::string runs = record::write_positions(positions);
    std::string spaced;
    for (const char c : runs) {
      spaced += c;
      if (c == ',') spaced += ' ';
    }
    text +=
        words::wrapped(spaced, page.width, fmt::format("{}{} ", std::string(kIndent, ' '), mark),
                       std::string(kIndent + 2, ' '));
  }
  return text;
}

}  // namespace

std::string joint_drawing(const record::Layout& layout, const std::string& marks,
                          const words::Page& page) {
  const MarkedNumbers numbers(marks);
  const std::size_t room = page.width - std::min(page.width, kIndent + numbers.width());
  // More numbers than fit into all the rows: no need to try.
  if (numbers.count() * (numbers.width() + 1) <= kMostDrawingRows * page.width) {
    const auto points = record::positions_of(layout, static_cast<int>(numbers.count()));
    const auto extent = record::outline_of(points);
    for (const auto& scale : scales_to_try(layout, extent, room)) {
      if (const auto cells = cells_at(scale, points, extent, numbers.width())) {
        return drawn(*cells, numbers);
      }
    }
  }
  return numbers.count() <= kMostListed ? listed(numbers, page) : drawn_together(marks, page);
}

}  // namespace screen
