#include "paper/grid_table.h"

#include <string>

namespace paper {

void begin_table(Markup& page, std::string_view name,
                 std::initializer_list<std::string_view> headings) {
  page.open(
      "div",
      {{"class", "wide"}, {"role", "group"}, {"tabindex", "0"}, {"aria-label", std::string(name)}});
  page.open("table").open("thead").open("tr");
  for (const auto heading : headings) page.element("th", {{"scope", "col"}}, heading);
  page.close().close().open("tbody");
}

void end_table(Markup& page) { page.close().close().close(); }

void write_row(Markup& page, std::initializer_list<std::string_view> cells) {
  page.open("tr");
  bool heads = true;
  for (const auto cell : cells) {
    if (heads) {
      page.element("th", {{"scope", "row"}}, cell);
    } else {
      page.element("td", cell);
    }
    heads = false;
  }
  page.close();
}

}  // namespace paper
