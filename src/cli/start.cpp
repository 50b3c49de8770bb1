#include "cli/start.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "terminal/session.h"

namespace cli {

void declare_start(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::StartWords>();
  command.add_option("FILE", options->file, "The logbook, usually NAME.bolts")->required();
  command.add_option("--machine", options->machine, "What is taken apart")
      ->required()
      ->option_text("TEXT");
  command.add_option("--unit", options->unit, "The unit shown first")->option_text("[N·m]");
  command
      .add_option("--tolerance", options->tolerance,
                  "Taken, and shown as assumed, where a source gives none")
      ->option_text("[10%]");
  command
      .add_option("--angle-window", options->angle_window,
                  "How far to either side an angle pass may stray where a source prints no window")
      ->option_text("[5°]");
  command
      .add_option("--method-error", options->method_error,
                  "What returning to the mark adds to the uncertainty of a found torque")
      ->option_text("[2%]");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_start(*options, session);
    };
  });
}

int run_start(const act::StartWords& words, const terminal::Session& session) {
  (void)session.reachable(words.file);
  session.tell(act::start(session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
