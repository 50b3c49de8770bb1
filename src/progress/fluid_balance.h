#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "record/job.h"

namespace progress {

// What came out of the machine of one fluid and what went back in.
struct FluidBalance {
  std::string fluid;  // as first entered
  std::vector<const record::Entry<record::FluidAmount>*> drained;
  std::vector<const record::Entry<record::FluidAmount>*> filled;
  // In before any of it had come out, going by the times: nothing of what goes back. Not in
  // `filled`.
  std::vector<const record::Entry<record::FluidAmount>*> filled_before;
  quantity::Volume sum_drained = quantity::Volume::millilitres(0);
  quantity::Volume sum_filled = quantity::Volume::millilitres(0);
  quantity::Volume sum_filled_before = quantity::Volume::millilitres(0);
  // Zero where as much went back; what is lost in a rag or a filter has to go in besides.
  quantity::Volume still_to_go_back = quantity::Volume::millilitres(0);
  quantity::Volume more_than_came_out = quantity::Volume::millilitres(0);
};

// More or less than came out by more than this share of it is to be looked at: a jug and what stays
// in the housing make less. Own choice, no source.
inline constexpr double kFluidShare = 0.1;

// What went back differs by more than that from what came out. Nothing of it has to have gone back
// yet, and what was never drained is compared with nothing.
[[nodiscard]] bool differs(const FluidBalance& balance);

// The id of that in the audit: "fluid-balance:gear-oil".
[[nodiscard]] std::string deviation_of(const FluidBalance& balance);

// Every fluid of the job, in the order of its first entry. Names are the same in any case of
// letters. The difference of two sums is nothing where it is less than a part in a billion of
// them: amounts in litres and quarts have no common binary fraction.
[[nodiscard]] std::vector<FluidBalance> fluid_balances(const record::Job& job);

// The balance of that name; nullptr where there is none.
[[nodiscard]] const FluidBalance* balance_of(const std::vector<FluidBalance>& balances,
                                             std::string_view fluid);

// The names of the fluids, in the same order.
[[nodiscard]] std::vector<std::string> fluid_names(const std::vector<FluidBalance>& balances);

}  // namespace progress
