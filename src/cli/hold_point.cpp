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
                                   : screen::hold_points_text(states, session.prose_page()));
  return failure::kDone;
}

}  // namespace

void declare_hold_point(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::HoldPointWords>();
  command.add_option("CODE", options->code, "A short code, such as HV");
  command.option_defaults()->group("To enter it");
  auto* what = command.add_option("--what", options->what, "To enter it: what has to be proved");
  what->option_text("TEXT");
  command.add_option("--wait", options->wait, "How long to wait first, such as 10min")
      ->option_text("TIME");
  command
      .add_option("--before", options->before,
                  "The joints behind it; else all, those to come as well")
      ->option_text("JOINT ...");
  command.option_defaults()->group("To open and to shut it");
  auto* begin = command.add_flag("--begin", options->begin, "The wait begins, as after isolation");
  auto* pass = command.add_flag("--pass", options->pass, "It is proved; what is behind is open");
  auto* close = command.add_flag("--close", options->close, "Shut again, as when power came back");
  for (auto* each : {begin, pass, close}) each->excludes(what);
  pass->excludes(begin);
  close->excludes(begin)->excludes(pass);
  command.add_option("--note", options->note, "How it was proved, or why it was shut")
      ->option_text("TEXT");
  declare_correction(command, options->correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_hold_point(*options, session);
    };
  });
}

int run_hold_point(const act::HoldPointWords& words, const terminal::Session& session) {
  const bool is_said = words.begin || words.pass || words.close || !words.what.empty() ||
                       !words.wait.empty() || !words.before.empty() || !words.note.empty() ||
                       !words.correction.replaced_line.empty();
  if (!is_said) return tell(words, session);
  auto logbook = session.open_to_write();
  session.tell(act::record_hold_point(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
