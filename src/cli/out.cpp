#include "cli/out.h"

#include <CLI/CLI.hpp>

#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "terminal/session.h"

namespace cli {

void declare_out(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::RemovalWords>();
  command
      .add_option("JOINT/POSITIONS", options->address, "Which ones, such as J06/1-14 or J06/3,5")
      ->required();
  command
      .add_option("--broke", options->broke,
                  "How it broke loose: normal (the default), tight, seized, loose (it was loose "
                  "already), sheared, empty (no fastener in the hole)")
      ->option_text("WORD");
  command
      .add_option("--damaged-thread", options->damaged_thread,
                  "A thread is torn, pulled or crossed: that of the fastener, the hole, or both")
      ->option_text("WHERE");
  command.add_flag("--no-mark", options->no_mark, "No teardown mark was drawn");
  command.add_option("--bag", options->bag, "Where they are kept")->option_text("TEXT");
  command.add_option("--note", options->note, "Anything worth knowing")->option_text("TEXT");
  command.option_defaults()->group("What came out, where it is not the joint's own");
  command
      .add_option("--length", options->length,
                  "Length that came out, where it is not the joint's own")
      ->option_text("LENGTH");
  command
      .add_option("--size", options->size, "Thread that came out, where it is not the joint's own")
      ->option_text("THREAD");
  command
      .add_option("--grade", options->grade, "Grade that came out, where it is not the joint's own")
      ->option_text("GRADE");
  declare_correction(command, options->correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_out(*options, session);
    };
  });
}

int run_out(const act::RemovalWords& words, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  session.tell(act::record_removal(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
