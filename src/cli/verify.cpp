#include "cli/verify.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "failure/exit_code.h"
#include "logbook/verification.h"
#include "screen/verify_answer.h"
#include "terminal/session.h"
#include "words/short_hash.h"

namespace cli {

void declare_verify(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<VerifyOptions>();
  auto* command = app.add_subcommand(
      "verify", "Whether any line was changed, taken out or put in behind the program");
  command
      ->add_option("--against", options->against,
                   "Whether the log that showed this hash, on a page or here, is contained")
      ->option_text("HASH");
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_verify(*options, session);
    };
  });
}

int run_verify(const VerifyOptions& options, const terminal::Session& session) {
  const auto against = options.against.empty() ? std::string() : words::read_hash(options.against);
  const auto found = logbook::verify(session.logbook_path(), against, session.waiting());
  session.out() << (session.json()
                        ? screen::verification_json(found, against)
                        : screen::verification_text(found, against, session.prose_page()));
  const bool contained = against.empty() || (found.chain && found.chain->sought);
  return found.fits() && contained ? failure::kDone : failure::kNotInOrder;
}

}  // namespace cli
