#include "progress/fluid_balance.h"

#include <algorithm>
#include <cmath>

#include "quantity/ascii.h"

namespace progress {
namespace {

using quantity::Volume;

// No jug tells less, and an amount that is written with four digits counts as that amount.
constexpr double kSameAmount = 2.5e-4;

void settle(FluidBalance& balance) {
  const double open = (balance.sum_drained - balance.sum_filled).in_millilitres();
  const double all = balance.sum_drained.in_millilitres() + balance.sum_filled.in_millilitres();
  if (std::abs(open) <= kSameAmount * all) return;
  auto& side = open > 0.0 ? balance.still_to_go_back : balance.more_than_came_out;
  side = Volume::millilitres(std::abs(open));
}

}  // namespace

bool differs(const FluidBalance& balance) {
  if (balance.drained.empty() || balance.filled.empty()) return false;
  const double off = std::max(balance.still_to_go_back.in_millilitres(),
                              balance.more_than_came_out.in_millilitres());
  return off > kFluidShare * balance.sum_drained.in_millilitres() * (1.0 + 1e-9);
}

std::string deviation_of(const FluidBalance& balance) {
  std::string id = "fluid-balance:" + balance.fluid;
  std::ranges::replace(id, ' ', '-');
  return id;
}

std::vector<FluidBalance> fluid_balances(const record::Job& job) {
  std::vector<FluidBalance> balances;
  for (const auto& entry : job.fluids) {
    const auto& amount = entry.content;
    auto known = std::ranges::find_if(balances, [&](const FluidBalance& balance) {
      return quantity::same_in_any_case(balance.fluid, amount.fluid);
    });
    if (known == balances.end()) {
      balances.emplace_back().fluid = amount.fluid;
      known = std::prev(balances.end());
    }
    const bool is_drained = amount.move == record::FluidMove::Drained;
    (is_drained ? known->drained : known->filled).push_back(&entry);
    auto& sum = is_drained ? known->sum_drained : known->sum_filled;
    sum = sum + amount.amount;
  }
  for (auto& balance : balances) settle(balance);
  return balances;
}

const FluidBalance* balance_of(const std::vector<FluidBalance>& balances, std::string_view fluid) {
  const auto found = std::ranges::find_if(balances, [&](const FluidBalance& balance) {
    return quantity::same_in_any_case(balance.fluid, fluid);
  });
  return found == balances.end() ? nullptr : &*found;
}

std::vector<std::string> fluid_names(const std::vector<FluidBalance>& balances) {
  std::vector<std::string> names;
  names.reserve(balances.size());
  for (const auto& balance : balances) names.push_back(balance.fluid);
  return names;
}

}  // namespace progress
