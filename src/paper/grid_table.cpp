#include "paper/grid_table.h"

#include <string>

namespace paper {

void begin_table(Markup& page, std::string_view name, const std::vector<std::string_view>& headings,
                 std::string_view look) {
  page.open(
      "div",
      {{"class", "wide"}, {"role", "group"}, {"tabindex", "0"}, {"aria-label", std::string(name)}});
  page.open("table", {{"class", std::string(look)}}).open("thead").open("tr");
  for (const auto heading : headings) page.element("th", {{"scope", "col"}}, heading);
  page.close().close().open("tbody");
}

void end_table(Markup& page) { page.close().close().close(); }

void write_row(Markup& page, const std::vector<std::string_view>& cells) {
  page.open("tr");
  page.element("th", {{"scope", "row"}}, cells.front());
  for (auto cell = cells.begin() + 1; cell != cells.end(); ++cell) page.element("td", *cell);
  page.close();
}

}  // namespace paper
