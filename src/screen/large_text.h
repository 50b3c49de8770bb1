#pragma once

#include <string>
#include <string_view>

namespace screen {

// Digits seven columns wide and five rows high, to be read from a step away: "12". Anything but a
// digit is left out.
[[nodiscard]] std::string large_digits(std::string_view digits, std::string_view indent);

}  // namespace screen
