#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace screen {

// What a terminal can show large figures with.
enum class LargeLetters {
  None,    // it is no terminal, or one that cannot be relied on: figures stand in the line
  Ascii,   // strokes of the plainest characters
  Blocks,  // block elements, where the locale is UTF-8
};

// A figure to be read from a step away, with what it is above it and its unit behind it.
struct LargeFigure {
  std::string label;
  std::string figure;  // digits and a decimal point; anything else is left out
  std::string unit;    // may be empty
};

// The figures five rows high, side by side where the width allows, else below one another; without
// large letters a line each, "position 12".
[[nodiscard]] std::string large_figures(const std::vector<LargeFigure>& figures,
                                        LargeLetters letters, std::size_t width);

}  // namespace screen
