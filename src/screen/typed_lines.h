#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace screen {

// What is typed, as it stands, two blanks in. A line that is wider than the page is broken so that
// it can still be typed as it stands: what is said beside it ("# ...") goes above, the command goes
// on after a "\".
[[nodiscard]] std::string typed_lines(std::string_view typed, std::size_t width);

}  // namespace screen
