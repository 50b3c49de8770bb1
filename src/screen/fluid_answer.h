#pragma once

#include <string>
#include <vector>

#include "progress/fluid_balance.h"
#include "words/text.h"

namespace screen {

// Each fluid with its amounts as typed, their sums and the balance.
[[nodiscard]] std::string fluids_text(const std::vector<progress::FluidBalance>& balances,
                                      const words::Page& page);

// {"fluids":[{"fluid","drained":[{"typed","ml","by","done_at","note"}],"filled":[...],
//             "drained_ml","filled_ml","still_to_go_back_ml"}]}
[[nodiscard]] std::string fluids_json(const std::vector<progress::FluidBalance>& balances);

}  // namespace screen
