#include "act/fluid_entry.h"

#include <fmt/format.h>

#include "act/lookup.h"
#include "failure/failure.h"
#include "progress/fluid_balance.h"
#include "quantity/volume_text.h"
#include "record/typed_text.h"
#include "words/fluid_in_words.h"
#include "words/line_text.h"

namespace act {
namespace {

record::FluidAmount amount_from(const FluidWords& words) {
  if (words.fluid.empty())
    throw failure::UsageError("name the fluid: fluid \"gear oil\" --drained ...");
  record::FluidAmount amount;
  amount.fluid = record::read_label(words.fluid, "NAME", 80);
  amount.move = words.drained.empty() ? record::FluidMove::Filled : record::FluidMove::Drained;
  amount.typed = record::read_label(words.drained.empty() ? words.filled : words.drained,
                                    words.drained.empty() ? "--filled" : "--drained", 40);
  amount.amount = quantity::read_volume(amount.typed);
  amount.note = record::read_optional_label(words.note, "--note", 1000);
  return amount;
}

// A fluid that is filled and was never drained may be a name that was typed otherwise before.
std::vector<std::string> remarks_on(const record::FluidAmount& amount,
                                    const std::vector<progress::FluidBalance>& balances) {
  const auto& balance = *progress::balance_of(balances, amount.fluid);
  if (balance.drained.empty()) {
    auto others = progress::fluid_names(balances);
    std::erase(others, balance.fluid);
    return {fmt::format("recorded, though no {} was drained{}", amount.fluid,
                        suggestion(amount.fluid, others))};
  }
  if (amount.move == record::FluidMove::Filled &&
      balance.more_than_came_out > quantity::Volume::millilitres(0)) {
    return {words::balance_in_words(balance) + "; look at the level"};
  }
  return {};
}

}  // namespace

Done record_fluid(logbook::Logbook& logbook, const logbook::Writer& writer,
                  const FluidWords& words) {
  const auto amount = amount_from(words);
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, words.correction, {"fluid"});
  auto stamp = recording.append(amount);
  const auto job = logbook.job();
  recording.commit();
  const auto balances = progress::fluid_balances(job);
  const auto& balance = *progress::balance_of(balances, amount.fluid);
  return {{{std::move(stamp),
            fmt::format("{}; {}", words::line_text(amount), words::balance_in_words(balance))}},
          remarks_on(amount, balances)};
}

}  // namespace act
