#include "report/table.h"

#include <algorithm>
#include <cassert>

#include "report/text.h"

namespace report {

void Table::column(std::string_view title, Align align) {
  columns_.push_back({std::string(title), align});
}

void Table::row(std::vector<std::string> cells) {
  assert(cells.size() == columns_.size());
  rows_.push_back(std::move(cells));
}

std::string Table::text(std::string_view indent) const {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    std::size_t width = display_width(columns_[i].title);
    for (const auto& row : rows_) {
      width = std::max(width, display_width(row[i]));
    }
    widths.push_back(width);
  }

  std::string result;
  const auto put = [&](const auto& cell_of) {
    std::string line(indent);
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (i > 0) line += "  ";
      line += columns_[i].align == Align::Right ? padded_left(cell_of(i), widths[i])
                                                : padded_right(cell_of(i), widths[i]);
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

}  // namespace report
