#pragma once

#include <string>
#include <vector>

#include "progress/fluid_balance.h"
#include "report/text.h"

namespace report {

// "still to go back at least 1.2 L", "as much went back as came out", "0.1 L more went in than came
// out".
[[nodiscard]] std::string balance_in_words(const progress::FluidBalance& balance);

// Each fluid with its amounts as typed, their sums and the balance.
[[nodiscard]] std::string fluids_text(const std::vector<progress::FluidBalance>& balances,
                                      const Page& page);

// {"fluids":[{"fluid","drained":[{"typed","ml","by","done_at","note"}],"filled":[...],
//             "drained_ml","filled_ml","still_to_go_back_ml"}]}
[[nodiscard]] std::string fluids_json(const std::vector<progress::FluidBalance>& balances);

}  // namespace report
