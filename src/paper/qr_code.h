#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "paper/markup.h"

namespace paper {

// The modules of a QR code (ISO/IEC 18004), without its light border.
struct CodeMatrix {
  int width = 0;
  std::vector<bool> dark;  // row by row

  // Beyond its edges all is light.
  [[nodiscard]] bool is_dark(int row, int column) const {
    return row >= 0 && column >= 0 && row < width && column < width &&
           dark[static_cast<std::size_t>(row * width + column)];
  }
};

// The code of this text at level M; nothing where it is longer than a code of 41 modules holds.
[[nodiscard]] std::optional<CodeMatrix> code_matrix(std::string_view text);

// Draws the text as a QR code (ISO/IEC 18004) of level M, which reads with about 15 % of it
// smudged, `size` millimetres wide with its light border of four modules, as one path of ours.
// False, and nothing drawn, where the text is longer than a code of 41 modules holds: on a bag
// label its modules would be too fine to print and scan.
[[nodiscard]] bool draw_qr_code(Markup& page, std::string_view text, double size);

}  // namespace paper
