#include "screen/table.h"

#include <algorithm>
#include <cassert>

#include "words/given_width.h"
#include "words/text.h"

namespace screen {

void Table::column(std::string_view title, Align align) {
  columns_.push_back({std::string(title), align});
}

void Table::row(std::vector<std::string> cells) {
  assert(cells.size() == columns_.size());
  rows_.push_back(std::move(cells));
}

std::vector<std::size_t> Table::widths() const {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    std::size_t width = words::given_width(columns_[i].title);
    for (const auto& row : rows_) {
      width = std::max(width, words::given_width(row[i]));
    }
    widths.push_back(width);
  }
  return widths;
}

std::size_t Table::width() const {
  std::size_t width = columns_.empty() ? 0 : 2 * (columns_.size() - 1);
  for (const auto column : widths()) width += column;
  return width;
}

std::string Table::text(std::string_view indent) const {
  const auto widths = this->widths();
  std::string result;
  const auto put = [&](const auto& cell_of) {
    std::string line(indent);
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (i > 0) line += "  ";
      line += columns_[i].align == Align::Right ? words::padded_left(cell_of(i), widths[i])
                                                : words::padded_right(cell_of(i), widths[i]);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    result += line + '\n';
  };
  if (std::ranges::any_of(columns_, [](const auto& column) { return !column.title.empty(); })) {
    put([&](std::size_t i) { return columns_[i].title; });
  }
  for (const auto& row : rows_) {
    put([&](std::size_t i) { return row[i]; });
  }
  return result;
}

std::string Table::fitted(std::string_view indent, std::size_t width) const {
  auto table = text(indent);
  std::size_t widest = 0;
  for (std::string_view rest = table; !rest.empty();) {
    const auto line = rest.substr(0, rest.find('\n'));
    widest = std::max(widest, words::given_width(line));
    rest.remove_prefix(std::min(rest.size(), line.size() + 1));
  }
  if (widest <= width) return table;
  std::string result;
  for (const auto& row : rows_) {
    std::string sentence;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (i > 0) sentence += "; ";
      sentence += columns_[i].title + ' ' + row[i];
    }
    result += words::wrapped(sentence, width, indent, std::string(indent) + "  ");
  }
  return result;
}

}  // namespace screen
