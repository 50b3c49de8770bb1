#include "cli/hold_point.h"

#include <CLI/CLI.hpp>

#include "cli/correction_options.h"
#include "cli/pending.h"
#include "dialogue/hold_point_wait.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "screen/hold_point_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

int tell(const act::HoldPointWords& words, const terminal::Session& session) {
  const auto read = [&] { return session.open_to_read().job_of_none(); };
  if (!words.code.empty() && session.is_watched()) {
    const auto job = read();
    dialogue::watch_wait(
        act::hold_point_or_refuse(progress::hold_points(job, session.done_at()), words.code),
        session);
  }
  const auto job = read();
  auto states = progress::hold_points(job, session.done_at());
  if (!words.code.empty()) states = {act::hold_point_or_refuse(states, words.code)};
  session.out() << (session.json() ? screen::hold_points_json(states)
                                   : screen::hold_points_text(states, session.page()));
  return failure::kDone;
}

}  // namespace

void declare_hold_point(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<act::HoldPointWords>();
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

int run_hold_point(const act::HoldPointWords& words, const terminal::Session& session) {
  const bool is_step = words.begin || words.pass || words.close;
  if (!words.note.empty() && !is_step) {
    throw failure::UsageError("--note belongs to --begin, --pass or --close");
  }
  if (is_step || !words.what.empty()) {
    auto logbook = session.open_to_write();
    const auto record = is_step ? act::step_hold_point : act::enter_hold_point;
    session.tell(record(logbook, session.writer(), words));
    return failure::kDone;
  }
  if (!words.correction.replaced_line.empty()) {
    throw failure::UsageError("say what takes its place: --what TEXT, --begin, --pass or --close");
  }
  return tell(words, session);
}

}  // namespace cli
