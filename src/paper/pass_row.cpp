#include "paper/pass_row.h"

#include <algorithm>

#include "paper/tick_box.h"

namespace paper {
namespace {

constexpr std::size_t kMostOnOnePage = 54;  // cells that are kept together, six rows of them
constexpr std::size_t kLongSetting = 6;     // letters that fit the column at full size
constexpr std::size_t kFewInARow = 6;       // cells beside which there is room to sign

bool is_number(const std::string& text) {
  return text.find_first_not_of("0123456789.,+°") == std::string::npos;
}

// A pass that is done stands back: only what is still to be done is large.
const char* look_of_setting(const PassRow& row) {
  if (row.is_done() || !is_number(row.large)) return "set word";
  return row.large.size() > kLongSetting ? "set long" : "set";
}

// One box for all cells, before what was done.
void write_done(Markup& page, const PassRow& row) {
  page.open("p");
  write_tick_box(page, true, BoxSize::Small);
  page.text(row.says.empty() ? "all" : row.says.front()).close();
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
  page.open("div", {{"class", look_of_setting(row)}});
  page.text(row.large);
  if (!row.unit.empty()) page.text(" ").element("span", {{"class", "unit"}}, row.unit);
  page.close();
  if (!row.below.empty()) page.element("div", {{"class", "with"}}, row.below);
  const bool is_signed = row.is_finish && !row.is_done();
  const bool signs_beside = is_signed && row.positions.size() <= kFewInARow;
  if (is_signed && !signs_beside) write_sign_line(page, "By");
  page.close();
  page.open("td", {{"class", "work"}});
  if (row.is_done()) {
    write_done(page, row);
  } else if (signs_beside) {
    page.open("div", {{"class", "beside"}});
    write_cells(page, row);
    write_sign_line(page, "By");
    page.close();
  } else {
    write_cells(page, row);
  }
  for (std::size_t i = row.is_done() ? 1 : 0; i < row.says.size(); ++i) {
    page.element("p", row.says[i]);
  }
  page.close().close().close().close();
}

}  // namespace paper
