#include "cli/fluid.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/lookup.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/fluid_balance.h"
#include "quantity/number_text.h"
#include "screen/fluid_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

int tell_balances(const act::FluidWords& words, const terminal::Session& session) {
  const auto job = session.open_to_read().job_of_none();
  auto balances = progress::fluid_balances(job);
  if (!words.fluid.empty()) {
    const auto* balance = progress::balance_of(balances, words.fluid);
    if (balance == nullptr) {
      throw failure::Refusal(
          fmt::format("there is no fluid {} in this logbook{}", quantity::quoted(words.fluid),
                      act::suggestion(words.fluid, progress::fluid_names(balances))));
    }
    balances = {*balance};
  }
  session.out() << (session.json() ? screen::fluids_json(balances)
                                   : screen::fluids_text(balances, session.prose_page()));
  return failure::kDone;
}

}  // namespace

void declare_fluid(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::FluidWords>();
  command.add_option("NAME", options->fluid, "The fluid, such as \"gear oil\"");
  auto* drained = command.add_option("--drained", options->drained,
                                     "How much came out, such as \"1.2 L\" or \"3 US qt\"");
  drained->option_text("VOLUME");
  command.add_option("--filled", options->filled, "How much went in")
      ->option_text("VOLUME")
      ->excludes(drained);
  command
      .add_option("--note", options->note, "Anything worth knowing, such as what it looked like")
      ->option_text("TEXT");
  declare_correction(command, options->correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_fluid(*options, session);
    };
  });
}

int run_fluid(const act::FluidWords& words, const terminal::Session& session) {
  const bool is_correction = !words.correction.replaced_line.empty();
  if (!words.drained.empty() || !words.filled.empty() || is_correction) {
    auto logbook = session.open_to_write();
    session.tell(act::record_fluid(logbook, session.writer(), words));
    return failure::kDone;
  }
  if (!words.note.empty()) {
    throw failure::UsageError("say how much: --drained VOLUME or --filled VOLUME");
  }
  return tell_balances(words, session);
}

}  // namespace cli
