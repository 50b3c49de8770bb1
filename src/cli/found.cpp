#include "cli/found.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "act/hold_point_entry.h"
#include "act/lookup.h"
#include "cli/adapter_options.h"
#include "cli/correction_options.h"
#include "cli/pending.h"
#include "dialogue/told_test.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "finding/position_search.h"
#include "record/address.h"
#include "screen/next_setting_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

// Prints which setting to pull at next; writes nothing.
int propose_next(const act::FindingWords& words, const record::Address& address,
                 const terminal::Session& session) {
  const auto logbook = session.open_to_read();
  const auto joint = act::joint_or_refuse(logbook, address.joint).content;
  act::check_positions(joint, address.positions);
  const auto wrench = act::wrench_or_refuse(logbook, words.wrench).content;
  const auto measured = act::test_from(words, joint, address.positions.front(), wrench);
  act::check_on_scale(measured, wrench);
  const auto job = logbook.job_of(joint.code);
  // A proposal is for a pull to come.
  if (const auto behind = act::behind_hold_point(job, joint.code, session.done_at());
      !behind.empty()) {
    throw failure::Refusal(behind);
  }
  const auto state = finding::survey(job);
  const auto& joint_state = *finding::joint_in(state, joint.code);
  const auto& position = joint_state.at(measured.position);
  if (position.removal != nullptr) {
    if (const auto why = finding::nothing_to_search(position.removal->content)) {
      throw failure::Refusal(fmt::format("{}: {} (line {}); strike that line if it is wrong",
                                         record::write_address(joint.code, measured.position), *why,
                                         position.removal->stamp.line));
    }
  }
  const auto proposal = finding::next_setting_at(joint_state, measured, wrench);
  if (const auto* stop = std::get_if<finding::Stop>(&proposal);
      stop != nullptr && stop->reason == finding::StopReason::NoTest) {
    throw failure::Refusal(
        fmt::format("{} {}", record::write_address(joint.code, measured.position), stop->text));
  }
  session.remark(act::remarks_on_marks(measured, wrench));
  session.out() << (session.json()
                        ? screen::next_setting_json(proposal, measured.unit)
                        : screen::next_setting_text(proposal, measured.unit, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_found(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<FoundOptions>();
  command.add_option("JOINT/POSITION", options->words.address, "Which fastener, such as J06/03")
      ->required();
  command
      .add_option("READING", options->words.readings,
                  "Such as 60s 70s 75s 80o: s short, o on, p past, n no move; \"80s 6°\" with how "
                  "far the mark still is")
      ->option_text("READING ...");
  command
      .add_option("--wrench", options->words.wrench,
                  "The wrench; settings are on its scale. May be left out with --replace")
      ->option_text("NAME");
  command.add_flag("--parts", options->parts,
                   "Also what the uncertainty is made of and how it was judged, as in show");
  auto* next = command.add_flag(
      "--next", options->next,
      "Propose the next setting after these readings, or after none; nothing is written");
  command.option_defaults()->group("How it was pulled");
  command
      .add_option("--radius", options->words.radius,
                  "Distance from the axis to the mark, for offsets in mm")
      ->option_text("LENGTH");
  command
      .add_option("--restart", options->words.restart,
                  "stacked (the default: setting on setting) or backed-off before each pull")
      ->option_text("WORD");
  command
      .add_option("--neighbours", options->words.neighbours,
                  "Whether the other fasteners were tight or slack")
      ->option_text("WORD");
  command
      .add_option("--prevailing", options->words.prevailing,
                  "Torque to run the fastener before it seats")
      ->option_text("TORQUE");
  declare_adapter_options(command, options->words.adapter);
  declare_correction(command, options->words.correction);
  next->excludes(command.get_option("--replace"));
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_found(*options, session);
    };
  });
}

int run_found(const FoundOptions& options, const terminal::Session& session) {
  const auto address = act::tested_address(options.words);
  if (options.words.wrench.empty() && options.words.correction.replaced_line.empty()) {
    throw failure::UsageError(
        "found needs --wrench NAME: the settings are on its scale; \"boltwitness wrench\" lists "
        "those "
        "that are entered");
  }
  if (options.next) return propose_next(options.words, address, session);
  auto logbook = session.open_to_write();
  dialogue::tell(act::record_finding(logbook, session.writer(), options.words), session,
                 options.parts);
  return failure::kDone;
}

}  // namespace cli
