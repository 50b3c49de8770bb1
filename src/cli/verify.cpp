#include "cli/verify.h"

#include <CLI/CLI.hpp>

#include "act/correction.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "logbook/verification.h"
#include "screen/verify_answer.h"
#include "terminal/progress_bars.h"
#include "terminal/session.h"
#include "words/short_hash.h"

namespace cli {

void declare_verify(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<VerifyOptions>();
  command
      .add_option("--against", options->against,
                  "Whether the log that showed this hash, on a page or here, is contained")
      ->option_text("HASH");
  command
      .add_option("--line", options->line,
                  "With --against: which line that log called by this number")
      ->option_text("N");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_verify(*options, session);
    };
  });
}

int run_verify(const VerifyOptions& options, const terminal::Session& session) {
  screen::AskedOfOlder asked;
  if (!options.against.empty()) asked.hashes = words::read_hashes(options.against);
  if (!options.line.empty()) asked.line = act::read_line_number(options.line);
  if (asked.hashes.empty() && asked.line > 0) {
    throw failure::UsageError(
        "--line asks for a line of the log that showed a hash; name that too: --against HASH");
  }
  terminal::ProgressBars bars(session);
  const auto found = logbook::verify(session.logbook_path(), asked.hashes, session.waiting(),
                                     bars.of_lines("verifying"));
  bars.end();
  session.out() << (session.json() ? screen::verification_json(found, asked)
                                   : screen::verification_text(found, asked, session.prose_page()));
  return found.fits() && asked.is_found(found) ? failure::kDone : failure::kNotInOrder;
}

}  // namespace cli
