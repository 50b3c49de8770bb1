#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace words {

// How a page of text is laid out.
struct Page {
  std::size_t width = 80;  // columns of the terminal
  bool bold = false;       // emphasis by the terminal; never the only sign of anything
};

// Columns that a text takes on a terminal (wide and combining characters counted as such).
[[nodiscard]] std::size_t display_width(std::string_view text);

// Padded with blanks to `width` columns; longer text is left as it is.
[[nodiscard]] std::string padded_right(std::string_view text, std::size_t width);
[[nodiscard]] std::string padded_left(std::string_view text, std::size_t width);

// The text where it takes no more than `width` columns, else as much of it as leaves room for "…".
[[nodiscard]] std::string shortened(std::string_view text, std::size_t width);

// Broken at blanks so that no line is wider than `width`, nor than 100 columns; the first line
// starts with `first`, the others with `next`. A word that is wider by itself is left whole. Ends
// with a line break.
[[nodiscard]] std::string wrapped(std::string_view text, std::size_t width, std::string_view first,
                                  std::string_view next);

// The same text, emphasised where the page has bold.
[[nodiscard]] std::string strong(std::string_view text, const Page& page);

// "1 hold", "3 holds".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

}  // namespace words
