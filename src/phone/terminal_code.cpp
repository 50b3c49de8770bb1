#include "phone/terminal_code.h"

#include "paper/qr_code.h"

namespace phone {

std::string terminal_code(std::string_view text, bool blocks) {
  const auto matrix = paper::code_matrix(text);
  if (!matrix) return {};
  const int border = 2;  // of the four that the standard asks for; the terminal's own edge does
  const auto is_light = [&](int row, int column) { return !matrix->is_dark(row, column); };
  std::string drawn;
  for (int row = -border; row < matrix->width + border; row += blocks ? 2 : 1) {
    drawn += "  ";
    for (int column = -border; column < matrix->width + border; ++column) {
      if (!blocks) {
        drawn += is_light(row, column) ? "##" : "  ";
        continue;
      }
      const bool above = is_light(row, column);
      const bool below = row + 1 < matrix->width + border && is_light(row + 1, column);
      drawn += above && below ? "█" : above ? "▀" : below ? "▄" : " ";
    }
    while (drawn.ends_with(' ')) drawn.pop_back();
    drawn += '\n';
  }
  return drawn;
}

}  // namespace phone
