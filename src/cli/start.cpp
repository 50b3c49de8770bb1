#include "cli/start.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/typed_text.h"
#include "terminal/session.h"

namespace cli {

void declare_start(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<StartOptions>();
  auto* command = app.add_subcommand("start", "Start a logbook for one machine or one job on it");
  command->add_option("FILE", options->file, "The logbook, usually NAME.bolts")
      ->required()
      ->option_text("FILE");
  command->add_option("--machine", options->machine, "What is taken apart")
      ->required()
      ->option_text("TEXT");
  command->add_option("--unit", options->unit, "The unit shown first")->option_text("[N·m]");
  command
      ->add_option("--tolerance", options->tolerance,
                   "Taken, and shown as assumed, where a source gives none")
      ->option_text("[10%]");
  command
      ->add_option("--method-error", options->method_error,
                   "What returning to the mark adds to the uncertainty of a found torque")
      ->option_text("[2%]");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_start(*options, session);
    };
  });
}

int run_start(const StartOptions& options, const terminal::Session& session) {
  record::LogbookStart start;
  start.machine = record::read_label(options.machine, "--machine");
  const auto unit = quantity::read_torque_unit(options.unit);
  if (!unit) {
    throw failure::InputError(fmt::format("--unit {}: expected one of {}",
                                          quantity::quoted(options.unit),
                                          quantity::accepted_torque_units()));
  }
  start.unit = *unit;
  start.default_tolerance = quantity::read_percent(options.tolerance);
  start.method_error = record::read_percent_below_half(options.method_error, "--method-error");
  start.tolerance_typed = record::read_label(options.tolerance, "--tolerance");
  start.method_typed = record::read_label(options.method_error, "--method-error");

  const auto stamp =
      logbook::start_logbook(session.reachable(options.file), start, session.writer());
  session.recorded(
      {{stamp, fmt::format("logbook {} started for {}", options.file, start.machine)}});
  if (std::filesystem::path(options.file).extension() != ".bolts") {
    session.remark("without the ending .bolts it is not found by itself; name it with --log");
  }
  return failure::kDone;
}

}  // namespace cli
