#include "cli/tighten.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/guided_tightening.h"
#include "cli/pending.h"
#include "cli/tightening_work.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/progress_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

TighteningWork work_from(const TightenOptions& options, record::Address address) {
  TighteningWork work;
  work.joint = std::move(address.joint);
  work.positions = std::move(address.positions);
  if (!options.pass.empty()) work.pass = quantity::read_count(options.pass, kMostPasses);
  work.wrench = options.wrench;
  if (!options.set.empty()) work.setting = record::read_setting(options.set);
  if (!options.turned.empty()) work.turned = quantity::read_angle(options.turned);
  if (!options.skip.empty()) work.skipped_why = record::read_label(options.skip, "--skip", 200);
  work.second_check = options.check;
  work.adapter = adapter_from(options.adapter);
  work.correction = options.correction;
  return work;
}

// Whether anything but the joint was said, so that a line is meant and not the guided way.
bool says_what_was_done(const TightenOptions& options) {
  return !options.pass.empty() || !options.wrench.empty() || !options.set.empty() ||
         !options.turned.empty() || !options.skip.empty() || options.check ||
         !options.correction.replaced_line.empty();
}

int tell_standing(const terminal::Session& session) {
  const progress::Reassembly now(session.open_to_read().job(), session.day());
  session.out() << (session.json()
                        ? screen::standing_json(now.progress)
                        : screen::standing_text(now.progress, now.job.start, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_tighten(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<TightenOptions>();
  auto* command = app.add_subcommand(
      "tighten", "Record a pass over some positions, or be guided through the plan");
  command
      ->add_option("ADDRESS", options->address,
                   "Which ones were tightened, such as J06/1-4; J06 alone guides through the joint")
      ->option_text("JOINT/POSITIONS");
  command->add_option("--pass", options->pass, "Its number in the plan; else the next open one")
      ->option_text("N");
  command->add_option("--wrench", options->wrench, "The wrench used, where it is not the plan's")
      ->option_text("NAME");
  command->add_option("--set", options->set, "What it was set to, on its own scale")
      ->option_text("SETTING");
  command->add_option("--turned", options->turned, "For an angle pass: how far it really turned")
      ->option_text("ANGLE");
  auto* skip = command->add_option("--skip", options->skip, "It was left out, and why");
  skip->option_text("TEXT");
  auto* check =
      command->add_flag("--check", options->check, "A second person's check of the final value");
  for (const auto* name : {"--set", "--turned"}) skip->excludes(command->get_option(name));
  check->excludes(skip);
  check->excludes(command->get_option("--turned"));
  declare_adapter_options(*command, options->adapter);
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_tighten(*options, session);
    };
  });
}

int run_tighten(const TightenOptions& options, const terminal::Session& session) {
  if (options.address.empty()) {
    if (says_what_was_done(options)) {
      throw failure::UsageError("name the positions, such as tighten J06/1-4 --pass 2");
    }
    if (!session.keyboard() || session.json()) return tell_standing(session);
    return guide_tightening({std::nullopt, {}}, session);
  }
  auto address = record::read_address(options.address);
  if (!address.positions.empty()) {
    record_work(session, work_from(options, std::move(address)));
    return failure::kDone;
  }
  if (says_what_was_done(options)) {
    throw failure::UsageError(
        fmt::format("{0} names no position; write {0}/1 or {0}/1-4", address.joint));
  }
  return guide_tightening({address.joint, adapter_from(options.adapter)}, session);
}

}  // namespace cli
