#pragma once

#include <string_view>

#include "quantity/force.h"

namespace quantity {

// Reads "31.2 kN", "31200 N", "7000 lbf", "7 kip"; a unit is required, in any case.
// failure::InputError otherwise. The result is above zero and at most 100 MN, which no bolt makes.
[[nodiscard]] Force read_force(std::string_view text);

}  // namespace quantity
