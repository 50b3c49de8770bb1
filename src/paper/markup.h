#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace paper {

// The name of an element or attribute: a literal of this program, never anything a person typed.
class Name {
 public:
  consteval Name(const char* text) : text_(text) {}  // NOLINT(google-explicit-constructor)
  [[nodiscard]] std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

struct Attribute {
  Name name;
  std::string value;
};
using Attributes = std::initializer_list<Attribute>;

// Writes the markup of a page, HTML and SVG alike. Whatever a person typed goes in through text()
// and attribute values and is escaped there, so it can never become markup.
class Markup {
 public:
  // Opens an element; close() closes the one opened last.
  Markup& open(Name element, Attributes attributes = {});
  Markup& close();

  // An element with nothing but text in it.
  Markup& element(Name element, Attributes attributes, std::string_view text);
  Markup& element(Name element, std::string_view text) { return this->element(element, {}, text); }

  // The same within a run of text: what follows stands right behind it.
  Markup& words(Name element, std::string_view text);

  // An element that holds nothing: a void one of HTML such as "meta", or an SVG shape.
  Markup& empty(Name element, Attributes attributes = {});

  // A photograph, its bytes in the page itself; `type` is its media type ("image/jpeg").
  Markup& picture(std::string_view type, std::string_view bytes, std::string_view instead);

  // What runs from right to left in it is set apart (isolated).
  Markup& text(std::string_view text);

  // The style sheet of the page, which is this program's own.
  Markup& style(std::string_view rules);

  // What was written since the last time, while elements are open.
  [[nodiscard]] std::string take_so_far();

  // What was written; every element must have been closed.
  [[nodiscard]] std::string take();

 private:
  void start(Name element, Attributes attributes);

  std::string written_;
  std::vector<std::string_view> open_;
};

// The text as it may stand between tags and inside a quoted attribute: `&`, `<`, `>` and both
// quotes as references; what no page may hold (quantity/visible_text.h, broken UTF-8,
// noncharacters) as the replacement character.
[[nodiscard]] std::string escaped(std::string_view text);

// The text with each part that runs from right to left set apart by a pair of isolates (Unicode
// UAX #9), so that figures and commas around it keep their places: without them "bag (name) 48 of
// 48" is shown with the count on the other side of a name in Hebrew.
[[nodiscard]] std::string isolated(std::string_view text);

// The text as a quoted string of a style sheet, for the margins of printed pages.
[[nodiscard]] std::string style_string(std::string_view text);

}  // namespace paper
