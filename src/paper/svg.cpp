#include "paper/svg.h"

#include <fmt/format.h>

#include <cmath>

namespace paper {

std::string in_drawing(double millimetres) {
  // Adding zero turns a negative zero into zero.
  return fmt::format("{}", std::round(millimetres * 100.0) / 100.0 + 0.0);
}

void open_drawing(Markup& page, double width, double height, std::string_view title) {
  page.open("svg", {{"role", "img"},
                    {"viewBox", fmt::format("0 0 {} {}", in_drawing(width), in_drawing(height))},
                    {"width", in_drawing(width) + "mm"},
                    {"height", in_drawing(height) + "mm"}});
  page.element("title", title);
}

void draw_text(Markup& page, const DrawnText& where, std::string_view text) {
  // A third of the size below the middle is where the line of the letters stands.
  page.element("text",
               {{"class", std::string(where.look)},
                {"x", in_drawing(where.x)},
                {"y", in_drawing(where.y + 0.35 * where.size)},
                {"font-size", in_drawing(where.size)},
                {"text-anchor", std::string(where.anchor)}},
               text);
}

void draw_line(Markup& page, double x1, double y1, double x2, double y2, std::string_view look) {
  page.empty("line", {{"class", std::string(look)},
                      {"x1", in_drawing(x1)},
                      {"y1", in_drawing(y1)},
                      {"x2", in_drawing(x2)},
                      {"y2", in_drawing(y2)}});
}

void draw_circle(Markup& page, double x, double y, double radius, std::string_view look) {
  page.empty("circle", {{"class", std::string(look)},
                        {"cx", in_drawing(x)},
                        {"cy", in_drawing(y)},
                        {"r", in_drawing(radius)}});
}

void draw_box(Markup& page, double x, double y, double width, double height,
              std::string_view look) {
  page.empty("rect", {{"class", std::string(look)},
                      {"x", in_drawing(x)},
                      {"y", in_drawing(y)},
                      {"width", in_drawing(width)},
                      {"height", in_drawing(height)}});
}

}  // namespace paper
