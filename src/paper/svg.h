#pragma once

#include <string>
#include <string_view>

#include "paper/markup.h"

namespace paper {

// A length in a drawing: millimetres on paper, to a hundredth.
[[nodiscard]] std::string in_drawing(double millimetres);

// Opens a drawing of this size on paper with its title; Markup::close closes it.
void open_drawing(Markup& page, double width, double height, std::string_view title);

// Text with its middle at this place; `anchor` is "start", "middle" or "end".
struct DrawnText {
  double x = 0.0;
  double y = 0.0;
  double size = 3.0;
  std::string_view anchor = "middle";
  std::string_view look = "plain";  // a class of the style sheet
};
void draw_text(Markup& page, const DrawnText& where, std::string_view text);

void draw_line(Markup& page, double x1, double y1, double x2, double y2, std::string_view look);
void draw_circle(Markup& page, double x, double y, double radius, std::string_view look);
void draw_box(Markup& page, double x, double y, double width, double height, std::string_view look);

}  // namespace paper
