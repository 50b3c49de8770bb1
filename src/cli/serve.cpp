#include "cli/serve.h"

#include <CLI/CLI.hpp>

#include "cli/network.h"
#include "cli/pending.h"

namespace cli {

void declare_serve(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<ServeCommandOptions>();
  command.add_flag("--lan", options->lan, "Answer the network too; else this machine alone");
  command.add_flag("--tls", options->tls,
                   "Keep what goes between them private, with a certificate made at first use");
  command.add_option("--port", options->port, "Another port than 8417; 0 takes any that is free")
      ->option_text("N")
      ->check(CLI::Range(0, 65535));
  command.add_option("--for", options->most, "End by itself after so long, such as 8h")
      ->option_text("TIME");
  auto* phones = command.add_flag("--phones", options->phones, "List the phones that are paired");
  command.add_option("--forget", options->forget, "Forget the phones of this person")
      ->option_text("WHO")
      ->excludes(phones);
  command.callback([options, &pending] {
    pending.run = [options, &pending](const terminal::Session& session) {
      return pending.network.serve(*options, session);
    };
    pending.is_over_network = true;
  });
}

}  // namespace cli
