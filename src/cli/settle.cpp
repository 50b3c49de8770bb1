#include "cli/settle.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "terminal/session.h"

namespace cli {

void declare_settle(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::DecisionWords>();
  command
      .add_option("ID", options->deviations,
                  "As the audit shows it, such as found-low:J06/03, found-low:J06/2,4 for some "
                  "positions, or found-low:J06 for all of a joint; several are decided together")
      ->required()
      ->option_text("ID ...");
  command
      .add_option("--as", options->decision,
                  "use-as-is: it stays so; re-torque: it is tightened again; renew: a new fastener "
                  "goes in; repair: a line with --done says what was done; correct-record: a "
                  "line is struck or replaced. All but the first stay open until that is done")
      ->option_text("DECISION");
  command.add_option("--why", options->why, "What it was decided on")->option_text("TEXT");
  command.add_option("--done", options->done, "What was done: closes a repair")
      ->option_text("TEXT");
  command
      .add_option("--with", options->second_person,
                  "A second person who agrees; a critical joint needs one")
      ->option_text("WHO");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_settle(*options, session);
    };
  });
}

int run_settle(const act::DecisionWords& words, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  session.tell(act::settle(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
