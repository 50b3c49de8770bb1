#include "paper/pass_row.h"

#include <algorithm>

#include "paper/tick_box.h"

namespace paper {
namespace {

constexpr std::size_t kMostOnOnePage = 54;  // cells that are kept together, six rows of them
constexpr std::size_t kLongSetting = 6;     // letters that fit the column at full size

bool is_number(const std::string& text) {
  return text.find_first_not_of("0123456789.,+°") == std::string::npos;
}

void write_cells(Markup& page, const PassRow& row) {
  page.open("ol", {{"class", row.is_finish ? "cells low" : "cells"}});
  for (const int position : row.positions) {
    page.open("li");
    page.text(std::to_string(position));
    if (row.ticked.contains(position)) {
      page.element("span", {{"class", "tick ticked"}, {"role", "img"}, {"aria-label", "done"}}, "");
    }
    page.close();
  }
  page.close();
}

}  // namespace

void write_pass_row(Markup& page, const PassRow& row) {
  const bool is_long = row.positions.size() > kMostOnOnePage;
  page.open("table", {{"class", is_long ? "pass long" : "pass"}}).open("thead").open("tr");
  page.element("th", {{"scope", "col"}, {"style", "width:42mm"}}, row.joint);
  page.element("th", {{"scope", "col"}}, row.title);
  page.close().close().open("tbody").open("tr");
  page.open("td", {{"class", "setting"}});
  page.open("div",
            {{"class", is_number(row.large) ? row.large.size() > kLongSetting ? "set long" : "set"
                                            : "set word"}});
  page.text(row.large);
  if (!row.unit.empty()) page.text(" ").element("span", {{"class", "unit"}}, row.unit);
  page.close();
  if (!row.below.empty()) page.element("div", {{"class", "with"}}, row.below);
  if (row.is_finish && row.ticked.size() < row.positions.size()) write_sign_line(page, "By");
  page.close();
  page.open("td", {{"class", "work"}});
  if (row.ticked.size() < row.positions.size()) {
    write_cells(page, row);
  } else {
    page.open("p");
    write_tick_box(page, true);
    page.text(" all").close();
  }
  for (const auto& line : row.says) page.element("p", line);
  page.close().close().close().close();
}

}  // namespace paper
