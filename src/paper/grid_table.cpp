#include "paper/grid_table.h"

namespace paper {

GridTable::GridTable(Markup& page, std::string_view name, std::vector<std::string_view> headings,
                     std::string_view look)
    : page_(page), headings_(headings.begin(), headings.end()) {
  page_.open(
      "div",
      {{"class", "wide"}, {"role", "group"}, {"tabindex", "0"}, {"aria-label", std::string(name)}});
  page_.open("table", {{"class", std::string(look)}}).open("thead").open("tr");
  for (const auto& heading : headings_) page_.element("th", {{"scope", "col"}}, heading);
  page_.close().close().open("tbody");
}

void GridTable::begin_row(std::string_view first) {
  column_ = 0;
  page_.open("tr");
  page_.element("th", {{"scope", "row"}}, first);
}

void GridTable::begin_cell() {
  ++column_;
  page_.open("td", {{"data-heading", headings_.at(column_)}});
}

void GridTable::cell(std::string_view text) {
  begin_cell();
  page_.text(text);
  end_cell();
}

void GridTable::end_cell() { page_.close(); }

void GridTable::end_row() { page_.close(); }

void GridTable::row(const std::vector<std::string_view>& cells) {
  begin_row(cells.front());
  for (std::size_t i = 1; i < cells.size(); ++i) cell(cells[i]);
  end_row();
}

void GridTable::end() { page_.close().close().close(); }

}  // namespace paper
