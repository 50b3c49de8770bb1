#include "cli/strike.h"

#include <CLI/CLI.hpp>

#include "act/correction.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "terminal/session.h"

namespace cli {

void declare_strike(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<StrikeOptions>();
  command.add_option("LINE", options->lines, "Its number; several are struck together")
      ->required()
      ->option_text("LINE ...");
  command.add_option("--why", options->why, "What was wrong with it")
      ->required()
      ->option_text("TEXT");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_strike(*options, session);
    };
  });
}

int run_strike(const StrikeOptions& options, const terminal::Session& session) {
  std::vector<std::int64_t> lines;
  for (const auto& typed : options.lines) lines.push_back(act::read_line_number(typed));
  auto logbook = session.open_to_write();
  session.tell(act::strike(logbook, session.writer(), lines, options.why));
  return failure::kDone;
}

}  // namespace cli
