#include "paper/tick_box.h"

#include <string>

namespace paper {

void write_tick_box(Markup& page, bool done, BoxSize size) {
  const std::string look = size == BoxSize::Small ? "box small" : "box";
  if (done) {
    page.element("span", {{"class", look + " ticked"}, {"role", "img"}, {"aria-label", "done"}},
                 "");
  } else {
    page.element("span", {{"class", look}}, "");
  }
}

void begin_todo(Markup& page) { page.open("ul", {{"class", "todo"}}); }

void write_todo(Markup& page, bool done, std::string_view what) {
  page.open("li");
  write_tick_box(page, done, BoxSize::Small);
  page.element("div", what).close();
}

void write_todo(Markup& page, const std::vector<words::Condition>& conditions) {
  begin_todo(page);
  for (const auto& [met, says] : conditions) write_todo(page, met, says);
  page.close();
}

void write_sign_line(Markup& page, std::string_view what) {
  page.open("p", {{"class", "write"}}).text(what).text(" ");
  page.element("span", {{"class", "blank"}}, "").text(" on ");
  page.element("span", {{"class", "blank"}}, "").close();
}

}  // namespace paper
