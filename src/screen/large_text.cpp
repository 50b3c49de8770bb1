#include "screen/large_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "quantity/ascii.h"
#include "words/text.h"

namespace screen {
namespace {

constexpr std::size_t kRows = 5;
constexpr std::string_view kLargeIndent = "  ";
constexpr std::string_view kBetweenDigits = "  ";
constexpr std::size_t kBetweenFigures = 6;
using Rows = std::array<std::string, kRows>;

// The strokes of a digit: across at top, middle and bottom, down at the left and the right of each
// half.
struct Strokes {
  bool top, upper_left, upper_right, middle, lower_left, lower_right, bottom;
};
constexpr std::array<Strokes, 10> kDigits = {{
    {true, true, true, false, true, true, true},
    {false, false, true, false, false, true, false},
    {true, false, true, true, true, false, true},
    {true, false, true, true, false, true, true},
    {false, true, true, true, false, true, false},
    {true, true, false, true, false, true, true},
    {true, true, false, true, true, true, true},
    {true, false, true, false, false, true, false},
    {true, true, true, true, true, true, true},
    {true, true, true, true, false, true, true},
}};

// Six columns wide. Across a stroke is half a row high, down it is two columns wide, which is about
// the same on a screen.
Rows in_blocks(const Strokes& digit) {
  const auto is_filled = [&](std::size_t half_row, std::size_t column) {
    if (half_row == 0 && digit.top) return true;
    if (half_row == 4 && digit.middle) return true;
    if (half_row == 8 && digit.bottom) return true;
    const bool left = column < 2;
    if (!left && column < 4) return false;
    const bool upper = half_row <= 4 && (left ? digit.upper_left : digit.upper_right);
    const bool lower =
        half_row >= 4 && half_row <= 8 && (left ? digit.lower_left : digit.lower_right);
    return upper || lower;
  };
  Rows rows;
  for (std::size_t row = 0; row < kRows; ++row) {
    for (std::size_t column = 0; column < 6; ++column) {
      const bool above = is_filled(2 * row, column);
      const bool below = is_filled(2 * row + 1, column);
      rows[row] += above && below ? "█" : above ? "▀" : below ? "▄" : " ";
    }
  }
  return rows;
}

// Five columns wide.
Rows in_ascii(const Strokes& digit) {
  const auto row = [](bool left, bool across, bool right) {
    return fmt::format("{}{}{}", left ? '|' : ' ', across ? "___" : "   ", right ? '|' : ' ');
  };
  return {row(false, digit.top, false), row(digit.upper_left, false, digit.upper_right),
          row(digit.upper_left, digit.middle, digit.upper_right),
          row(digit.lower_left, false, digit.lower_right),
          row(digit.lower_left, digit.bottom, digit.lower_right)};
}

Rows point(LargeLetters letters) {
  const std::string dot = letters == LargeLetters::Blocks ? "▀▀" : ".";
  const std::string blank(words::display_width(dot), ' ');
  return {blank, blank, blank, blank, dot};
}

// Its label, its rows and, in the last of them, its unit; all of one width.
std::vector<std::string> column_of(const LargeFigure& large, LargeLetters letters) {
  Rows rows;
  for (const char c : large.figure) {
    if (!quantity::is_digit(c) && c != '.') continue;
    const auto& strokes = kDigits[quantity::is_digit(c) ? static_cast<std::size_t>(c - '0') : 0];
    const auto glyph = c == '.'                          ? point(letters)
                       : letters == LargeLetters::Blocks ? in_blocks(strokes)
                                                         : in_ascii(strokes);
    for (std::size_t row = 0; row < kRows; ++row) {
      rows[row] += (rows[row].empty() ? "" : std::string(kBetweenDigits)) + glyph[row];
    }
  }
  std::vector<std::string> column = {large.label};
  column.insert(column.end(), rows.begin(), rows.end());
  if (!large.unit.empty()) column.back() += ' ' + large.unit;
  std::size_t width = 0;
  for (const auto& line : column) width = std::max(width, words::display_width(line));
  for (auto& line : column) line = words::padded_right(line, width);
  return column;
}

std::string lines_of(const std::vector<std::string>& rows) {
  std::string text;
  for (const auto& row : rows) {
    const auto end = row.find_last_not_of(' ');
    text += std::string(kLargeIndent) + row.substr(0, end + 1) + '\n';
  }
  return text;
}

}  // namespace

std::string large_figures(const std::vector<LargeFigure>& figures, LargeLetters letters,
                          std::size_t width) {
  std::string text;
  if (letters == LargeLetters::None) {
    for (const auto& [label, figure, unit] : figures) {
      text +=
          fmt::format("{}{} {}{}{}\n", kLargeIndent, label, figure, unit.empty() ? "" : " ", unit);
    }
    return text;
  }
  std::vector<std::string> beside;
  for (const auto& figure : figures) {
    auto column = column_of(figure, letters);
    const bool fits =
        !beside.empty() && kLargeIndent.size() + words::display_width(beside.front()) +
                                   kBetweenFigures + words::display_width(column.front()) <=
                               width;
    if (!fits) {
      if (!beside.empty()) text += lines_of(beside);
      beside = std::move(column);
      continue;
    }
    for (std::size_t row = 0; row < beside.size(); ++row) {
      beside[row] += std::string(kBetweenFigures, ' ') + column[row];
    }
  }
  return text + (beside.empty() ? "" : lines_of(beside));
}

}  // namespace screen
