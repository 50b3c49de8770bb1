#include "progress/fluid_balance.h"

#include <algorithm>
#include <cmath>

#include "quantity/ascii.h"

namespace progress {
namespace {

using quantity::Volume;

// No jug tells less, and an amount that is written with four digits counts as that amount.
constexpr double kSameAmount = 2.5e-4;

// What was in when the first of it came out came out with it. Of lines of one moment nobody knows
// which was first.
void set_apart_what_was_in(FluidBalance& balance) {
  if (balance.drained.empty()) return;
  const auto first = (*std::ranges::min_element(balance.drained, {}, [](const auto* entry) {
                       return entry->stamp.done_at;
                     }))->stamp.done_at;
  const auto back =
      std::stable_partition(balance.filled.begin(), balance.filled.end(),
                            [&](const auto* entry) { return entry->stamp.done_at >= first; });
  balance.filled_before.assign(back, balance.filled.end());
  balance.filled.erase(back, balance.filled.end());
}

Volume sum_of(const std::vector<const record::Entry<record::FluidAmount>*>& entries) {
  auto sum = Volume::millilitres(0);
  for (const auto* entry : entries) sum = sum + entry->content.amount;
  return sum;
}

void settle(FluidBalance& balance) {
  set_apart_what_was_in(balance);
  balance.sum_drained = sum_of(balance.drained);
  balance.sum_filled = sum_of(balance.filled);
  balance.sum_filled_before = sum_of(balance.filled_before);
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
