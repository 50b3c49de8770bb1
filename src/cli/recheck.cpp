#include "cli/recheck.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/due_rechecks.h"
#include "progress/reassembly.h"
#include "quantity/number_text.h"
#include "screen/recheck_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

int record_look(const act::LookWords& words, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  const auto look = act::record_look(logbook, session.writer(), words);
  if (look.recheck.turned && session.json()) {
    session.out() << screen::turned_json(look.turned, look.recheck, look.unit,
                                         look.done.lines.front());
    session.remark(look.done.remarks);
    return failure::kDone;
  }
  session.tell(look.done);
  if (look.recheck.turned) {
    session.out() << screen::turned_text(look.turned, look.recheck, look.unit,
                                         session.prose_page());
  }
  return failure::kDone;
}

// A reading that says nothing of any joint was meant for another counter.
void check_some_go_by(const record::RunningAmount& reading, const finding::Survey& survey) {
  std::string others;
  for (const auto& state : survey.joints) {
    for (const auto& interval : state.joint->rechecks) {
      const auto* amount = std::get_if<record::RunningAmount>(&interval.after);
      if (amount == nullptr) continue;
      if (record::on_counter(reading, amount->counter)) return;
      others = record::word_of(amount->counter);
    }
  }
  if (others.empty()) return;
  throw failure::InputError(fmt::format(
      "--counter {} is in {}, and no joint here is looked at again by that; they go by "
      "{}",
      quantity::quoted(record::write_exact(reading)), record::word_of(reading.counter), others));
}

int tell_due(const act::LookWords& words, bool is_whole, const terminal::Session& session) {
  const progress::Reassembly reassembly(session.open_to_read().job(), session.day());
  const auto now = session.done_at();
  const auto counter = act::counter_from(words.counter);
  if (counter) check_some_go_by(*counter, reassembly.survey);
  const auto list =
      progress::due_rechecks(reassembly.job, reassembly.survey, reassembly.progress, now, counter);
  if (session.json()) {
    session.out() << screen::due_rechecks_json(list);
  } else {
    const auto whole = is_whole                ? std::string()
                       : words.counter.empty() ? std::string("recheck --whole")
                                               : fmt::format("recheck --counter {} --whole",
                                                             quantity::quoted(words.counter));
    session.answer_text(screen::due_rechecks_text(list, now, whole, session.prose_page()),
                        screen::due_in_short(list, session.prose_page()));
  }
  return std::ranges::any_of(list, &progress::DueRecheck::is_overdue) ? failure::kNotInOrder
                                                                      : failure::kDone;
}

}  // namespace

void declare_recheck(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::LookWords>();
  auto* address =
      command.add_option("JOINT/POSITIONS", options->address, "Which ones, such as J06/1-16");
  command.add_option("STATE", options->state,
                     "How the stripe stands: aligned, or \"turned 15°\" where it has moved");
  command
      .add_option("--counter", options->counter,
                  "What the machine's counter shows now, such as \"1290 running h\" or \"500 km\"")
      ->option_text("AMOUNT");
  command.add_flag("--really", options->really,
                   "It was seen to have turned so far, by more than half a turn");
  declare_correction(command, options->correction);
  auto whole = std::make_shared<bool>(false);
  command.add_flag("--whole", *whole, "What is due, with no list cut")->excludes(address);
  command.callback([options, whole, &pending] {
    pending.run = [options, whole](const terminal::Session& session) {
      return run_recheck(*options, *whole, session);
    };
  });
}

int run_recheck(const act::LookWords& words, bool whole, const terminal::Session& session) {
  const bool is_correction = !words.correction.replaced_line.empty();
  if (!words.state.empty() || (is_correction && !words.address.empty())) {
    return record_look(words, session);
  }
  if (!words.address.empty() || is_correction) {
    throw failure::UsageError(
        "say how the stripe stands: recheck J06/1-16 aligned, or recheck J06/3 "
        "\"turned 15°\"");
  }
  return tell_due(words, whole, session);
}

}  // namespace cli
