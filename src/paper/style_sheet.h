#pragma once

#include <string>
#include <string_view>

namespace paper {

enum class PaperSize { A4, Letter };

// Reads "a4" or "letter", in any case. InputError otherwise.
[[nodiscard]] PaperSize read_paper_size(std::string_view text);

// The one style sheet of every page, black on white, for a screen and for print. `footer` stands at
// the foot of each printed page beside "page 2 of 7".
[[nodiscard]] std::string style_sheet(PaperSize size, std::string_view footer);

}  // namespace paper
