#pragma once

#include <string_view>

namespace words {

// What a terminal takes for the beginning and the end of what is strong. Both take no columns.
inline constexpr std::string_view kStrongBegins = "\x1b[1m";
inline constexpr std::string_view kStrongEnds = "\x1b[0m";

}  // namespace words
