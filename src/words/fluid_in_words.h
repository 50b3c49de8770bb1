#pragma once

#include <string>
#include <vector>

#include "progress/fluid_balance.h"
#include "record/entry.h"

namespace words {

using FluidAmounts = std::vector<const record::Entry<record::FluidAmount>*>;

// "1.2 L (dark) + 1.5 US qt = 2.62 L"; "nothing" where there is none.
[[nodiscard]] std::string amounts_in_words(const FluidAmounts& amounts, quantity::Volume sum);

// "still to go back at least 1.2 L", "as much went back as came out", "0.1 L more went in than came
// out".
[[nodiscard]] std::string balance_in_words(const progress::FluidBalance& balance);

}  // namespace words
