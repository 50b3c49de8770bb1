#include "cli/tighten.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/lookup.h"
#include "cli/adapter_options.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "dialogue/guided_tightening.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "record/address.h"
#include "screen/progress_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

// Whether anything but the joint was said, so that a line is meant and not the guided way.
bool says_what_was_done(const act::TighteningWords& words) {
  return !words.pass.empty() || !words.wrench.empty() || !words.set.empty() ||
         !words.turned.empty() || !words.skip.empty() || !words.seen.empty() || words.check ||
         !words.correction.replaced_line.empty();
}

int tell_standing(const terminal::Session& session) {
  const progress::Reassembly now(session.open_to_read().job(), session.day());
  session.out() << (session.json() ? screen::standing_json(now.progress, std::nullopt)
                                   : screen::standing_text(now.progress, session.prose_page()));
  return now.progress.steps().empty() ? failure::kNotInOrder : failure::kDone;
}

// Of one joint: a program is answered and not asked.
int tell_standing_of(const std::string& typed, const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto joint = act::joint_or_refuse(logbook, typed).content.code;
  const progress::Reassembly now(logbook.job(), session.day());
  session.out() << screen::standing_json(now.progress, joint);
  return failure::kDone;
}

}  // namespace

void declare_tighten(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<TightenOptions>();
  command.add_option(
      "JOINT/POSITIONS", options->address,
      "Which ones were tightened, such as J06/1-4; J06 alone guides through the joint");
  command
      .add_option("--pass", options->words.pass, "Its number in the plan; else the next open one")
      ->option_text("N");
  command
      .add_option("--wrench", options->words.wrench, "The wrench used, where it is not the plan's")
      ->option_text("NAME");
  command.add_option("--set", options->words.set, "What it was set to, on its own scale")
      ->option_text("SETTING");
  command
      .add_option("--turned", options->words.turned, "For an angle pass: how far it really turned")
      ->option_text("ANGLE");
  command
      .add_option("--seen", options->words.seen,
                  "What thread, face and seat looked like once it was slackened")
      ->option_text("TEXT");
  auto* skip = command.add_option("--skip", options->words.skip, "It was left out, and why");
  skip->option_text("TEXT");
  auto* check = command.add_flag("--check", options->words.check,
                                 "A second person's check of the final value");
  for (const auto* name : {"--set", "--turned", "--seen"}) skip->excludes(command.get_option(name));
  check->excludes(skip);
  check->excludes(command.get_option("--turned"));
  declare_adapter_options(command, options->words.adapter);
  declare_correction(command, options->words.correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_tighten(*options, session);
    };
  });
}

int run_tighten(const TightenOptions& options, const terminal::Session& session) {
  if (options.address.empty()) {
    if (says_what_was_done(options.words)) {
      throw failure::UsageError("name the positions, such as tighten J06/1-4 --pass 2");
    }
    if (!session.keyboard() || session.json()) return tell_standing(session);
    return dialogue::guide_tightening({std::nullopt, {}}, session);
  }
  auto address = record::read_address_in_order(options.address);
  if (!address.positions.empty()) {
    const auto work = act::work_from(options.words, std::move(address));
    auto logbook = session.open_to_write();
    session.tell(act::record_work(logbook, session.writer(), work));
    return failure::kDone;
  }
  if (says_what_was_done(options.words)) {
    throw failure::UsageError(
        fmt::format("{0} names no position; write {0}/1 or {0}/1-4", address.joint));
  }
  if (session.json()) return tell_standing_of(address.joint, session);
  return dialogue::guide_tightening({address.joint, act::adapter_from(options.words.adapter)},
                                    session);
}

}  // namespace cli
