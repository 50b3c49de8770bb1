#include "screen/manual_table.h"

#include <algorithm>
#include <numeric>
#include <sstream>

#include "words/given_width.h"

namespace screen {
namespace {

constexpr std::size_t kTableIndent = 2;
constexpr std::size_t kBetweenColumns = 2;
constexpr std::size_t kNarrowestColumn = 14;

// What a column takes, and the least it can do with: its longest word.
struct Measure {
  std::size_t natural = 0;
  std::size_t least = 0;
};

std::size_t longest_word(const std::string& cell) {
  std::istringstream text(cell);
  std::size_t longest = 0;
  for (std::string word; text >> word;) longest = std::max(longest, words::given_width(word));
  return longest;
}

std::vector<Measure> measured(const std::vector<std::vector<std::string>>& rows) {
  std::vector<Measure> columns(rows.front().size());
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < columns.size() && i < row.size(); ++i) {
      columns[i].natural = std::max(columns[i].natural, words::given_width(row[i]));
      columns[i].least = std::max(columns[i].least, longest_word(row[i]));
    }
  }
  return columns;
}

// The widest column gives way, blank by blank, until all fit; none where they cannot.
std::vector<std::size_t> widths_of(const std::vector<Measure>& columns, std::size_t room) {
  std::vector<std::size_t> widths;
  widths.reserve(columns.size());
  for (const auto& column : columns) widths.push_back(column.natural);
  const auto total = [&] {
    return std::accumulate(widths.begin(), widths.end(), std::size_t{0}) +
           (widths.size() - 1) * kBetweenColumns;
  };
  while (total() > room) {
    const auto widest = std::ranges::max_element(widths);
    const auto& column = columns[static_cast<std::size_t>(widest - widths.begin())];
    if (*widest <= std::max(column.least, std::min(column.natural, kNarrowestColumn))) return {};
    --*widest;
  }
  return widths;
}

std::vector<std::string> lines_of(const std::string& cell, std::size_t width) {
  std::istringstream text(words::wrapped(cell, width, "", ""));
  std::vector<std::string> lines;
  for (std::string line; std::getline(text, line);) lines.push_back(line);
  return lines;
}

std::string side_by_side(const std::vector<std::string>& row,
                         const std::vector<std::size_t>& widths) {
  std::vector<std::vector<std::string>> cells;
  std::size_t height = 1;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    cells.push_back(i < row.size() ? lines_of(row[i], widths[i]) : std::vector<std::string>{});
    height = std::max(height, cells.back().size());
  }
  std::string text;
  for (std::size_t at = 0; at < height; ++at) {
    std::string line(kTableIndent, ' ');
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const std::string part = at < cells[i].size() ? cells[i][at] : "";
      line += words::padded_right(part, widths[i] + kBetweenColumns);
    }
    text += line.substr(0, line.find_last_not_of(' ') + 1) + '\n';
  }
  return text;
}

std::string under_each_other(const std::vector<std::string>& row, std::size_t width) {
  const std::string under(kTableIndent + 2, ' ');
  std::string text;
  for (std::size_t i = 0; i < row.size(); ++i) {
    if (row[i].empty()) continue;
    text += words::wrapped(row[i], width, i == 0 ? under.substr(2) : under, under);
  }
  return text;
}

}  // namespace

std::string without_marks(std::string_view text, const words::Page& layout) {
  std::string plain;
  for (const auto& span : manual::spans_of(text)) {
    if (span.style != manual::Span::Style::Strong) {
      plain += span.text;
      continue;
    }
    std::string word;
    for (const char next : span.text + ' ') {
      if (next != ' ') {
        word += next;
        continue;
      }
      if (!word.empty()) plain += words::strong(word, layout);
      plain += next;
      word.clear();
    }
    plain.pop_back();
  }
  return plain;
}

std::string manual_table(const std::vector<std::vector<std::string>>& rows,
                         const words::Page& layout) {
  std::vector<std::vector<std::string>> plain;
  for (const auto& row : rows) {
    plain.emplace_back();
    for (const auto& cell : row) plain.back().push_back(manual::plain_text(cell));
  }
  constexpr std::size_t kWidestTable = 100;
  const auto width = std::min(layout.width, kWidestTable);
  const auto widths = widths_of(measured(plain), width - kTableIndent);
  std::string text;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    if (widths.empty()) {
      if (i > 0) text += under_each_other(plain[i], width);
    } else {
      text += side_by_side(plain[i], widths);
    }
    if (i == 0 && !widths.empty()) text += '\n';
  }
  return text;
}

}  // namespace screen
