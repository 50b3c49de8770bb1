#include "paper/mark_shape.h"

#include "paper/svg.h"

namespace paper {

std::string_view line_word(record::Mark mark) {
  switch (mark) {
    case record::Mark::Short:
      return "line short";
    case record::Mark::On:
      return "line aligned";
    case record::Mark::Past:
      return "line past";
    case record::Mark::NoMove:
      return "no move";
  }
  return "";
}

void draw_mark(Markup& page, double x, double y, record::Mark mark) {
  constexpr double kHalf = 2.1;
  constexpr double kOff = 1.3;
  const double shift = mark == record::Mark::On ? 0.0 : mark == record::Mark::Past ? kOff : -kOff;
  draw_line(page, x + shift, y - kHalf, x + shift, y - 0.2, "mark");
  draw_line(page, x, y + 0.2, x, y + kHalf, "mark");
  if (mark == record::Mark::NoMove) draw_line(page, x + shift - 1.1, y, x + 1.1, y, "mark");
}

}  // namespace paper
