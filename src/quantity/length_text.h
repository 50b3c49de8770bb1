#pragma once

#include <string>
#include <string_view>

#include "quantity/length.h"

namespace quantity {

// Reads "90mm", "12 cm", "1.5in", "1.5\"", "1 1/2 in", "3/8in"; a unit is required, in any
// case. failure::InputError otherwise. The result is above zero and at most 10 m: no fastener,
// wrench or extension is longer, so more is a slipped key or unit.
[[nodiscard]] Length read_length(std::string_view text);

// "90 mm": shortest text that reads back to the same length.
[[nodiscard]] std::string write_exact(Length length);

}  // namespace quantity
