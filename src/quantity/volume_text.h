#pragma once

#include <string>
#include <string_view>

#include "quantity/volume.h"

namespace quantity {

// Reads "850 mL", "1,2 L", "3.5 US qt", "1 US gal"; mL, cL, L, US qt, US pt, US gal in any case. A
// bare qt, pt or gal is refused, since the imperial one is a fifth larger. failure::InputError
// otherwise, naming the accepted units. The result is above zero.
[[nodiscard]] Volume read_volume(std::string_view text);

// "1.2 L", and "850 mL" below a litre: four significant digits, for people.
[[nodiscard]] std::string write_rounded(Volume volume);

}  // namespace quantity
