#pragma once

#include <string>
#include <string_view>

#include "paper/style_sheet.h"

namespace paper {

// The whole manual as one page to read or print: its contents first, then part by part and page by
// page as contents.txt has them, the examples of every command last. `version` such as "1.0.0"
// stands at the foot of each printed page.
[[nodiscard]] std::string manual_book(std::string_view version, PaperSize size);

}  // namespace paper
