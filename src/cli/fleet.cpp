#include "cli/fleet.h"

#include <CLI/CLI.hpp>

#include "cli/network.h"
#include "cli/pending.h"

namespace cli {

void declare_fleet(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<FleetOptions>();
  command.add_option("load|ask", options->deed, "load or ask")->option_text("load|ask");
  command
      .add_option("LOGBOOK|QUESTION", options->names,
                  "To load: the logbooks, which are only read; to ask: the question")
      ->option_text("LOGBOOK ...|QUESTION");
  command.add_option("--to", options->to, "Load into the database of this server")
      ->option_text("ADDRESS");
  command
      .add_option("--from", options->from,
                  "Ask this one, such as postgresql://name@server/database; no password in it")
      ->option_text("ADDRESS");
  command.add_option("--machine", options->machine, "What is asked of this machine alone")
      ->option_text("TEXT");
  command.add_flag("--unencrypted", options->unencrypted,
                   "Another machine may be reached without encryption");
  command.add_flag("--whole", options->whole, "With no list cut");
  command.callback([options, &pending] {
    pending.run = [options, &pending](const terminal::Session& session) {
      return pending.network.fleet(*options, session);
    };
    pending.is_over_network = true;
  });
}

}  // namespace cli
