#include "cli/hold_point.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/hold_point_wait.h"
#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/hold_point_state.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/hold_point_answer.h"
#include "terminal/session.h"
#include "words/line_text.h"

namespace cli {
namespace {

using progress::HoldPointState;
using record::HoldPointMove;
using Stands = HoldPointState::Stands;

std::string code_from(const HoldPointOptions& options) {
  return record::read_code(options.code, "the code of a hold point", "HV or shaft-blocked");
}

const HoldPointState& state_or_refuse(const std::vector<HoldPointState>& states,
                                      const std::string& code) {
  if (const auto* state = progress::state_of(states, code)) return *state;
  std::vector<std::string> known;
  known.reserve(states.size());
  for (const auto& each : states) known.push_back(each.point->code);
  throw failure::Refusal(fmt::format("there is no hold point {} in this logbook{}",
                                     quantity::quoted(code), suggestion(code, known)));
}

record::HoldPoint point_from(const HoldPointOptions& options, const logbook::Logbook& logbook) {
  record::HoldPoint point;
  point.code = code_from(options);
  point.what = record::read_label(options.what, "--what");
  if (!options.wait.empty()) point.wait = record::read_span_of_time(options.wait);
  for (const auto& typed : options.before) {
    auto code = joint_or_refuse(logbook, record::read_joint_code(typed)).content.code;
    if (std::ranges::find(point.joints, code) == point.joints.end()) {
      point.joints.push_back(std::move(code));
    }
  }
  return point;
}

int enter(const HoldPointOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, options.correction, {"hold point"});
  const auto point = point_from(options, logbook);
  const auto job = logbook.job();
  if (progress::state_of(progress::hold_points(job, writer.done_at), point.code) != nullptr) {
    throw failure::Refusal(fmt::format(
        "hold point {} is in the logbook already; to correct it give the number of its line with "
        "--replace (\"boltwitness history\" shows it)",
        point.code));
  }
  const auto stamp = recording.append(point);
  recording.commit();
  session.recorded({{stamp, words::line_text(point)}});
  return failure::kDone;
}

HoldPointMove move_from(const HoldPointOptions& options) {
  if (options.begin) return HoldPointMove::Begun;
  return options.pass ? HoldPointMove::Passed : HoldPointMove::Closed;
}

// A hold point is about what is so now; what lies ahead is a hope.
void refuse_ahead_of_clock(const terminal::Session& session, const std::string& code) {
  if (session.done_at() <= session.now() + std::chrono::minutes(1)) return;
  throw failure::Refusal(fmt::format(
      "{} lies ahead of this machine's clock; {} is begun and passed when it is so, not before",
      record::write_local(session.done_at()), code));
}

void check_move(const HoldPointState& state, HoldPointMove move) {
  const auto& point = *state.point;
  switch (move) {
    case HoldPointMove::Begun:
      if (point.wait) return;
      throw failure::Refusal(
          fmt::format("{} has no wait to begin; once it is proved: hold-point {} --pass",
                      point.code, point.code));
    case HoldPointMove::Passed:
      if (state.stands == Stands::NotBegun && point.wait) {
        throw failure::Refusal(fmt::format("{}; hold-point {} --begin starts its wait of {}",
                                           progress::in_words(state), point.code,
                                           record::write_exact(*point.wait)));
      }
      if (state.stands == Stands::Waiting) {
        throw failure::Refusal(fmt::format("{}, to {}; nothing was written",
                                           progress::in_words(state),
                                           record::write_local(*state.open_from)));
      }
      if (state.stands == Stands::Passed) {
        throw failure::Refusal(progress::in_words(state) + " already; --close shuts it again");
      }
      return;
    case HoldPointMove::Closed:
      if (state.stands != Stands::NotBegun) return;
      throw failure::Refusal(progress::in_words(state) + ": it is shut already");
  }
}

int step(const HoldPointOptions& options, const terminal::Session& session) {
  const auto code = code_from(options);
  refuse_ahead_of_clock(session, code);
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, options.correction, {"hold point step"});
  const auto job = logbook.job();
  const auto states = progress::hold_points(job, writer.done_at);
  const auto& before = state_or_refuse(states, code);
  const record::HoldPointStep taken{before.point->code, move_from(options),
                                    record::read_optional_label(options.note, "--note", 1000)};
  check_move(before, taken.move);
  const auto stamp = recording.append(taken);
  const auto job_after = logbook.job();
  recording.commit();
  std::string says = words::line_text(taken);
  if (taken.move == HoldPointMove::Begun) {
    const auto states_after = progress::hold_points(job_after, writer.done_at);
    says +=
        fmt::format("; the wait of {} ends {}", record::write_exact(*before.point->wait),
                    record::write_local(*progress::state_of(states_after, taken.code)->open_from));
  }
  session.recorded({{stamp, says}});
  if (before.stands == Stands::Passed && taken.move == HoldPointMove::Begun) {
    session.remark(taken.code + " was passed; it is shut until it is passed again");
  }
  return failure::kDone;
}

int tell(const HoldPointOptions& options, const terminal::Session& session) {
  const auto read = [&] { return session.open_to_read().job(); };
  if (!options.code.empty() && session.is_watched()) {
    const auto job = read();
    watch_wait(state_or_refuse(progress::hold_points(job, session.done_at()), options.code),
               session);
  }
  const auto job = read();
  auto states = progress::hold_points(job, session.done_at());
  if (!options.code.empty()) states = {state_or_refuse(states, options.code)};
  session.out() << (session.json() ? screen::hold_points_json(states)
                                   : screen::hold_points_text(states, session.page()));
  return failure::kDone;
}

bool is_step(const HoldPointOptions& options) {
  return options.begin || options.pass || options.close;
}

}  // namespace

void declare_hold_point(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<HoldPointOptions>();
  auto* command = app.add_subcommand(
      "hold-point",
      "A safety gate before joints: enter, begin, pass, shut; alone, how each stands");
  auto* code = command->add_option("CODE", options->code, "A short code, such as HV");
  code->option_text("CODE");
  auto* what = command->add_option("--what", options->what, "To enter it: what has to be proved");
  what->option_text("TEXT")->needs(code);
  command->add_option("--wait", options->wait, "How long to wait first, such as 10min")
      ->option_text("TIME")
      ->needs(what);
  command
      ->add_option("--before", options->before,
                   "The joints behind it; else all, those to come as well")
      ->option_text("JOINT ...")
      ->needs(what);
  auto* begin = command->add_flag("--begin", options->begin, "The wait begins, as after isolation");
  auto* pass = command->add_flag("--pass", options->pass, "It is proved; what is behind is open");
  auto* close = command->add_flag("--close", options->close, "Shut again, as when power came back");
  for (auto* each : {begin, pass, close}) each->needs(code)->excludes(what);
  pass->excludes(begin);
  close->excludes(begin)->excludes(pass);
  command->add_option("--note", options->note, "How it was proved, or why it was shut")
      ->option_text("TEXT");
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_hold_point(*options, session);
    };
  });
}

int run_hold_point(const HoldPointOptions& options, const terminal::Session& session) {
  if (!options.note.empty() && !is_step(options)) {
    throw failure::UsageError("--note belongs to --begin, --pass or --close");
  }
  if (is_step(options)) return step(options, session);
  if (!options.what.empty()) return enter(options, session);
  if (!options.correction.replaced_line.empty()) {
    throw failure::UsageError("say what takes its place: --what TEXT, --begin, --pass or --close");
  }
  return tell(options, session);
}

}  // namespace cli
