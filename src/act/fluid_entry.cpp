#include "act/fluid_entry.h"

#include <fmt/format.h>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "failure/failure.h"
#include "progress/fluid_balance.h"
#include "quantity/volume_text.h"
#include "record/typed_text.h"
#include "words/fluid_in_words.h"
#include "words/line_text.h"

namespace act {
namespace {

// The words, with what they leave out as the line before had it.
FluidWords completed(FluidWords words, const record::FluidAmount* before) {
  KeptWords kept(words.correction);
  if (before != nullptr) {
    kept.take("note", words.note, before->note);
    if (words.drained.empty() && words.filled.empty()) {
      auto& amount = before->move == record::FluidMove::Drained ? words.drained : words.filled;
      amount = before->typed;
    }
  }
  if (before != nullptr) kept.check();
  return words;
}

record::FluidAmount amount_from(const FluidWords& words) {
  if (words.fluid.empty())
    throw failure::UsageError("name the fluid: fluid \"gear oil\" --drained ...");
  record::FluidAmount amount;
  amount.fluid = record::read_text(words.fluid, "NAME", 80);
  amount.move = words.drained.empty() ? record::FluidMove::Filled : record::FluidMove::Drained;
  amount.typed = record::read_text(words.drained.empty() ? words.filled : words.drained,
                                   words.drained.empty() ? "--filled" : "--drained", 40);
  amount.amount = quantity::read_volume(amount.typed);
  amount.note = record::read_optional_text(words.note, "--note", 1000);
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
  Amendment amendment(logbook, writer, words.correction);
  amendment.strike_replaced({"fluid"});
  const auto amount = amount_from(completed(words, amendment.before<record::FluidAmount>()));
  auto stamp = amendment.append(amount);
  const auto job = logbook.job_of_none();
  amendment.commit();
  const auto balances = progress::fluid_balances(job);
  const auto& balance = *progress::balance_of(balances, amount.fluid);
  Done done{{{std::move(stamp),
              fmt::format("{}; {}", words::line_text(amount), words::balance_in_words(balance))}},
            remarks_on(amount, balances)};
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
