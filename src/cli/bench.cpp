#include "cli/bench.h"

#include <CLI/CLI.hpp>

#include "cli/pending.h"
#include "dialogue/guided_teardown.h"
#include "failure/failure.h"
#include "record/address.h"
#include "record/word.h"
#include "terminal/session.h"

namespace cli {

void declare_bench(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<BenchOptions>();
  command.add_option(
      "JOINT/POSITIONS", options->address,
      "The joint, such as J06 or J06/1-4; else it asks. Through an adapter, or with a "
      "running torque, enter the test with found");
  command
      .add_option("--wrench", options->wrench,
                  "The wrench to begin with; else the one used last, where it covers what is "
                  "expected, else it asks")
      ->option_text("NAME");
  command
      .add_option(
          "--restart", options->restart,
          "stacked (the default: setting on setting) or backed-off before each pull; after a pull "
          "that moved nothing it asks")
      ->option_text("WORD");
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_bench(*options, session);
    };
  });
}

int run_bench(const BenchOptions& options, const terminal::Session& session) {
  if (session.json()) throw failure::UsageError("bench asks and is answered; it has no --json");
  dialogue::TeardownGuide guide;
  if (!options.address.empty()) guide.address = record::read_address(options.address);
  guide.wrench = options.wrench;
  if (!options.restart.empty()) {
    guide.restart = record::read_word<record::Restart>(options.restart);
  }
  return dialogue::guide_teardown(guide, session);
}

}  // namespace cli
