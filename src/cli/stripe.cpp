#include "cli/stripe.h"

#include <CLI/CLI.hpp>

#include "act/look_entry.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "record/address.h"
#include "terminal/session.h"

namespace cli {
namespace {

// Whether the teardown mark is off: said, or asked where somebody is there to answer.
bool mark_is_wiped(const act::StripeWords& words, const terminal::Session& session) {
  const bool is_kept = !words.correction.replaced_line.empty();
  if (words.wiped || words.not_wiped || is_kept) return words.wiped;
  if (session.keyboard()) {
    session.out() << "teardown mark wiped off? y or n: " << std::flush;
    const auto key = session.key();
    session.out() << '\n';
    if (key == 'y' || key == 'n') return key == 'y';
  }
  throw failure::UsageError(
      "say whether the teardown mark was wiped off first: --wiped or --not-wiped; two marks on one "
      "fastener cannot be told apart later");
}

}  // namespace

void declare_stripe(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::StripeWords>();
  command.add_option("JOINT/POSITIONS", options->address, "Which ones, such as J06/1-16")
      ->required();
  auto* wiped =
      command.add_flag("--wiped", options->wiped, "The teardown mark was wiped off first");
  command.add_flag("--not-wiped", options->not_wiped, "The teardown mark is still there")
      ->excludes(wiped);
  command
      .add_option("--counter", options->counter,
                  "What the machine's counter shows, such as \"1240 running h\" or \"500 km\"")
      ->option_text("AMOUNT");
  declare_correction(command, options->correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_stripe(*options, session);
    };
  });
}

int run_stripe(const act::StripeWords& stated, const terminal::Session& session) {
  auto words = stated;
  // What was mistyped is told before anything is asked.
  (void)record::read_address(words.address);
  (void)act::counter_from(words.counter);
  words.wiped = mark_is_wiped(words, session);
  auto logbook = session.open_to_write();
  session.tell(act::draw_stripe(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
