#include "cli/fluid.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/fluid_balance.h"
#include "quantity/volume_text.h"
#include "record/typed_text.h"
#include "screen/fluid_answer.h"
#include "terminal/session.h"
#include "words/fluid_in_words.h"
#include "words/line_text.h"

namespace cli {
namespace {

record::FluidAmount amount_from(const FluidOptions& options) {
  if (options.fluid.empty())
    throw failure::UsageError("name the fluid: fluid \"gear oil\" --drained ...");
  record::FluidAmount amount;
  amount.fluid = record::read_label(options.fluid, "NAME", 80);
  amount.move = options.drained.empty() ? record::FluidMove::Filled : record::FluidMove::Drained;
  amount.typed = record::read_label(options.drained.empty() ? options.filled : options.drained,
                                    options.drained.empty() ? "--filled" : "--drained", 40);
  amount.amount = quantity::read_volume(amount.typed);
  amount.note = record::read_optional_label(options.note, "--note", 1000);
  return amount;
}

std::vector<std::string> names_of(const std::vector<progress::FluidBalance>& balances) {
  std::vector<std::string> names;
  names.reserve(balances.size());
  for (const auto& balance : balances) names.push_back(balance.fluid);
  return names;
}

// A fluid that is filled and was never drained may be a name that was typed otherwise before.
void remark_on(const record::FluidAmount& amount,
               const std::vector<progress::FluidBalance>& balances,
               const terminal::Session& session) {
  const auto& balance = *progress::balance_of(balances, amount.fluid);
  if (balance.drained.empty()) {
    auto others = names_of(balances);
    std::erase(others, balance.fluid);
    session.remark(fmt::format("recorded, though no {} was drained{}", amount.fluid,
                               suggestion(amount.fluid, others)));
  } else if (amount.move == record::FluidMove::Filled &&
             balance.more_than_came_out > quantity::Volume::millilitres(0)) {
    session.remark(words::balance_in_words(balance) + "; look at the level");
  }
}

int record_amount(const FluidOptions& options, const terminal::Session& session) {
  const auto amount = amount_from(options);
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"fluid"});
  const auto stamp = recording.append(amount);
  const auto job = logbook.job();
  recording.commit();
  const auto balances = progress::fluid_balances(job);
  const auto& balance = *progress::balance_of(balances, amount.fluid);
  session.recorded(
      {{stamp, fmt::format("{}; {}", words::line_text(amount), words::balance_in_words(balance))}});
  remark_on(amount, balances, session);
  return failure::kDone;
}

int tell_balances(const FluidOptions& options, const terminal::Session& session) {
  const auto job = session.open_to_read().job();
  auto balances = progress::fluid_balances(job);
  if (!options.fluid.empty()) {
    const auto* balance = progress::balance_of(balances, options.fluid);
    if (balance == nullptr) {
      throw failure::Refusal(fmt::format("there is no fluid {} in this logbook{}",
                                         quantity::quoted(options.fluid),
                                         suggestion(options.fluid, names_of(balances))));
    }
    balances = {*balance};
  }
  session.out() << (session.json() ? screen::fluids_json(balances)
                                   : screen::fluids_text(balances, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_fluid(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<FluidOptions>();
  auto* command = app.add_subcommand(
      "fluid", "Record what was drained or filled; alone, what has to go back at least");
  command->add_option("NAME", options->fluid, "The fluid, such as \"gear oil\"")
      ->option_text("NAME");
  auto* drained = command->add_option("--drained", options->drained,
                                      "How much came out, such as \"1.2 L\" or \"3 US qt\"");
  drained->option_text("VOLUME");
  command->add_option("--filled", options->filled, "How much went in")
      ->option_text("VOLUME")
      ->excludes(drained);
  command
      ->add_option("--note", options->note, "Anything worth knowing, such as what it looked like")
      ->option_text("TEXT");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_fluid(*options, session);
    };
  });
}

int run_fluid(const FluidOptions& options, const terminal::Session& session) {
  if (!options.drained.empty() || !options.filled.empty()) return record_amount(options, session);
  if (!options.note.empty() || !options.correction.replaced_line.empty()) {
    throw failure::UsageError("say how much: --drained VOLUME or --filled VOLUME");
  }
  return tell_balances(options, session);
}

}  // namespace cli
