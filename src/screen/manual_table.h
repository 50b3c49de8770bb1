#pragma once

#include <string>
#include <vector>

#include "manual/block.h"
#include "words/text.h"

namespace screen {

// A table of the manual, its titles first: columns side by side, long cells broken at blanks so
// that it is no wider than the page. Where columns would become narrower than a long word, each row
// is a list of its cells.
[[nodiscard]] std::string manual_table(const std::vector<std::vector<std::string>>& rows,
                                       const words::Page& layout);

// Words of the manual without their marks; strong ones emphasised where the page has bold, one by
// one, since a line may break between them.
[[nodiscard]] std::string without_marks(std::string_view text, const words::Page& layout);

}  // namespace screen
