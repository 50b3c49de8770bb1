#pragma once

#include <string>

#include "record/layout.h"
#include "words/text.h"

namespace screen {

// The most rows that a drawing may take, and the most positions that are listed one by one.
inline constexpr std::size_t kMostDrawingRows = 24;
inline constexpr std::size_t kMostListed = 200;

// The positions of a joint where they lie, as seen by the fitter: each its number, and behind it
// its mark, a blank where there is nothing to tell. One mark a position, position 1 first. The
// smallest drawing in which no two numbers touch; where the page is too narrow or too short for
// one, the numbers in the order of counting, which it says, and above kMostListed positions only
// runs of them, drawn together by mark.
[[nodiscard]] std::string joint_drawing(const record::Layout& layout, const std::string& marks,
                                        const words::Page& page);

}  // namespace screen
