#include "cli/recheck.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/due_rechecks.h"
#include "progress/turned_stripe.h"
#include "quantity/angle_text.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/recheck_answer.h"
#include "terminal/session.h"
#include "words/line_text.h"
#include "words/written_line.h"

namespace cli {
namespace {

// How the stripe stood: nothing for aligned, else the turn. InputError otherwise.
std::optional<quantity::Angle> turn_from(const std::vector<std::string>& words) {
  constexpr std::string_view kTurned = "turned";
  const auto text = fmt::format("{}", fmt::join(words, " "));
  if (quantity::same_in_any_case(text, "aligned")) return std::nullopt;
  if (!quantity::starts_with_in_any_case(text, kTurned)) {
    throw failure::InputError(fmt::format(
        "{}: expected how the stripe stands: aligned, or turned and by how much, such as "
        "\"turned 15°\"",
        quantity::quoted(text)));
  }
  const auto turn = quantity::read_angle(std::string_view(text).substr(kTurned.size()));
  if (turn <= quantity::Angle::degrees(0.0)) {
    throw failure::InputError(
        fmt::format("{}: a stripe that has not turned is aligned", quantity::quoted(text)));
  }
  return turn;
}

std::optional<record::RunningAmount> counter_from(const RecheckOptions& options) {
  if (options.counter.empty()) return std::nullopt;
  return record::read_running_amount(options.counter);
}

void refuse_without_stripe(const progress::Reassembly& now, const record::Recheck& recheck) {
  std::vector<int> bare;
  for (const int position : recheck.positions) {
    if (now.progress.finish_of(recheck.joint, position).drawn == nullptr) bare.push_back(position);
  }
  if (bare.empty()) return;
  const auto where = record::write_address(recheck.joint, bare);
  throw failure::Refusal(
      fmt::format("{} no final stripe to look at; \"boltwitness stripe {}\" records it",
                  where + (bare.size() == 1 ? " has" : " have"), where));
}

// A stripe that has turned is not aligned again until it is a new one.
void refuse_aligned_after_turn(const progress::Reassembly& now, const record::Recheck& recheck) {
  if (recheck.turned) return;
  for (const int position : recheck.positions) {
    const auto* look = now.progress.finish_of(recheck.joint, position).turned;
    if (look == nullptr) continue;
    const auto where = record::write_address(recheck.joint, position);
    throw failure::Refusal(fmt::format(
        "{} was found turned {} on {}; {}: \"boltwitness tighten {}\" leads through it", where,
        quantity::write_exact(*look->content.turned), record::write_local(look->stamp.done_at),
        progress::kAfterATurn, recheck.joint));
  }
}

// A counter that shows less than at the stripe was mistyped, or was exchanged.
void remark_on_counter(const progress::Reassembly& now, const record::Recheck& recheck,
                       const terminal::Session& session) {
  if (!recheck.counter) return;
  for (const int position : recheck.positions) {
    const auto& before = now.progress.finish_of(recheck.joint, position).drawn->content.counter;
    const auto here = before ? record::on_counter(*before, recheck.counter->counter) : std::nullopt;
    if (!here || here->amount <= recheck.counter->amount) continue;
    session.remark(
        fmt::format("the counter showed {} at the stripe, which is more than {}; recorded "
                    "as given",
                    record::write_exact(*before), record::write_exact(*recheck.counter)));
    return;
  }
}

int record_look(const RecheckOptions& options, const terminal::Session& session) {
  auto address = record::read_address(options.address);
  record::Recheck recheck;
  recheck.turned = turn_from(options.state);
  recheck.counter = counter_from(options);
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"recheck"});
  const auto joint = joint_or_refuse(logbook, address.joint).content;
  check_positions(joint, address.positions);
  recheck.joint = joint.code;
  recheck.positions = std::move(address.positions);
  const progress::Reassembly now(logbook.job(), session.day());
  refuse_without_stripe(now, recheck);
  refuse_aligned_after_turn(now, recheck);
  const words::WrittenLine line{recording.append(recheck), words::line_text(recheck)};
  recording.commit();
  const auto turned = progress::turned_stripe(now, recheck);
  const auto unit = now.job.start.unit;
  if (recheck.turned && session.json()) {
    session.out() << screen::turned_json(turned, recheck, unit, line);
  } else {
    session.recorded({line});
    if (recheck.turned) session.out() << screen::turned_text(turned, recheck, unit, session.page());
  }
  remark_on_counter(now, recheck, session);
  return failure::kDone;
}

int tell_due(const RecheckOptions& options, const terminal::Session& session) {
  const progress::Reassembly reassembly(session.open_to_read().job(), session.day());
  const auto now = session.done_at();
  const auto list = progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress,
                                           now, counter_from(options));
  session.out() << (session.json() ? screen::due_rechecks_json(list)
                                   : screen::due_rechecks_text(list, now, session.page()));
  return std::ranges::any_of(list, &progress::DueRecheck::is_overdue) ? failure::kNotInOrder
                                                                      : failure::kDone;
}

}  // namespace

void declare_recheck(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<RecheckOptions>();
  auto* command = app.add_subcommand(
      "recheck", "Record a later look at final stripes; alone, what is due, overdue first");
  auto* address = command->add_option("ADDRESS", options->address, "Which ones, such as J06/1-16");
  address->option_text("JOINT/POSITIONS");
  command
      ->add_option("STATE", options->state,
                   "How the stripe stands: aligned, or \"turned 15°\" where it has moved")
      ->option_text("STATE");
  command
      ->add_option("--counter", options->counter,
                   "What the machine's counter shows now, such as \"1290 running h\" or \"500 km\"")
      ->option_text("AMOUNT");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_recheck(*options, session);
    };
  });
}

int run_recheck(const RecheckOptions& options, const terminal::Session& session) {
  if (!options.state.empty()) return record_look(options, session);
  if (!options.address.empty() || !options.correction.replaced_line.empty()) {
    throw failure::UsageError(
        "say how the stripe stands: recheck J06/1-16 aligned, or recheck J06/3 "
        "\"turned 15°\"");
  }
  return tell_due(options, session);
}

}  // namespace cli
