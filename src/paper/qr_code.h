#pragma once

#include <optional>
#include <string_view>

#include "paper/markup.h"

namespace paper {

// Draws the text as a QR code (ISO/IEC 18004) of level M, which reads with about 15 % of it
// smudged, `size` millimetres wide with its light border of four modules, as one path of ours.
// False, and nothing drawn, where the text is longer than a code of 41 modules holds: on a bag
// label its modules would be too fine to print and scan.
[[nodiscard]] bool draw_qr_code(Markup& page, std::string_view text, double size);

}  // namespace paper
