#include "cli/start.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/stated_torque.h"
#include "record/typed_text.h"
#include "terminal/session.h"

namespace cli {
namespace {

// Beyond a quarter turn to either side a window would let everything pass.
quantity::Angle angle_window_from(const std::string& typed) {
  const auto window = quantity::read_angle(typed);
  if (window > quantity::Angle::degrees(0.0) && window <= quantity::Angle::degrees(90.0)) {
    return window;
  }
  throw failure::InputError(
      fmt::format("--angle-window {}: expected above 0° and at most 90°", quantity::quoted(typed)));
}

}  // namespace

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
      ->add_option("--angle-window", options->angle_window,
                   "How far to either side an angle pass may stray where a source prints no window")
      ->option_text("[5°]");
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

  if (!options.angle_window.empty()) {
    start.angle_window = angle_window_from(options.angle_window);
    start.angle_typed = record::read_label(options.angle_window, "--angle-window");
  }

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
