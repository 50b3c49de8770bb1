#include "cli/stripe.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/reassembly.h"
#include "progress/turned_stripe.h"
#include "record/address.h"
#include "terminal/session.h"
#include "words/line_text.h"

namespace cli {
namespace {

// Whether the teardown mark is off: said, or asked where somebody is there to answer.
bool mark_is_wiped(const StripeOptions& options, const terminal::Session& session) {
  if (options.wiped || options.not_wiped) return options.wiped;
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

void refuse_where_none_may_be(const progress::Reassembly& now, const std::string& joint,
                              const std::vector<int>& positions) {
  const auto why = progress::why_no_stripe(now, joint, positions);
  if (!why.empty()) throw failure::Refusal(why);
}

}  // namespace

void declare_stripe(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<StripeOptions>();
  auto* command = app.add_subcommand(
      "stripe", "Record the final stripe across fastener and part, after the final value");
  command->add_option("ADDRESS", options->address, "Which ones, such as J06/1-16")
      ->required()
      ->option_text("JOINT/POSITIONS");
  auto* wiped =
      command->add_flag("--wiped", options->wiped, "The teardown mark was wiped off first");
  command->add_flag("--not-wiped", options->not_wiped, "The teardown mark is still there")
      ->excludes(wiped);
  command
      ->add_option("--counter", options->counter,
                   "What the machine's counter shows, such as \"1240 running h\" or \"500 km\"")
      ->option_text("AMOUNT");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_stripe(*options, session);
    };
  });
}

int run_stripe(const StripeOptions& options, const terminal::Session& session) {
  auto address = record::read_address(options.address);
  record::FinalStripe stripe;
  if (!options.counter.empty()) stripe.counter = record::read_running_amount(options.counter);
  stripe.teardown_mark_wiped = mark_is_wiped(options, session);
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"stripe"});
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  stripe.joint = joint.code;
  stripe.positions = std::move(address.positions);
  const progress::Reassembly now(logbook.job(), session.day());
  refuse_where_none_may_be(now, stripe.joint, stripe.positions);
  const auto stamp = recording.append(stripe);
  recording.commit();
  session.recorded({{stamp, words::line_text(stripe)}});
  if (!stripe.teardown_mark_wiped) {
    session.remark(
        "two marks stand on these now; wipe the teardown mark before it is taken for "
        "the final one");
  }
  return failure::kDone;
}

}  // namespace cli
