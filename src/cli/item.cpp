#include "cli/item.h"

#include <CLI/CLI.hpp>

#include "cli/correction_options.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "screen/item_answer.h"
#include "terminal/session.h"

namespace cli {
namespace {

int tell_items(const act::ItemWords& words, const terminal::Session& session) {
  const auto job = session.open_to_read().job_of_none();
  auto counts = progress::item_counts(job);
  if (!words.code.empty()) counts = {act::item_or_refuse(counts, words.code)};
  session.out() << (session.json() ? screen::items_json(counts) : screen::items_text(counts));
  return failure::kDone;
}

}  // namespace

void declare_item(CLI::App& command, Pending& pending) {
  auto options = std::make_shared<act::ItemWords>();
  command.add_option("CODE", options->code, "A short code, such as CL1");
  command.add_option("--what", options->what, "What it is")->option_text("TEXT");
  auto* count = command.add_option("--count", options->count, "How many came off");
  count->option_text("N");
  command.add_option("--before", options->before, "The joint that may not be closed without it")
      ->option_text("JOINT");
  command.add_option("--back", options->back, "How many are back in their place")
      ->option_text("N")
      ->excludes(count);
  declare_correction(command, options->correction);
  command.callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_item(*options, session);
    };
  });
}

int run_item(const act::ItemWords& words, const terminal::Session& session) {
  const bool is_said = !words.count.empty() || !words.back.empty() || !words.what.empty() ||
                       !words.before.empty() || !words.correction.replaced_line.empty();
  if (!is_said) return tell_items(words, session);
  auto logbook = session.open_to_write();
  session.tell(act::record_items(logbook, session.writer(), words));
  return failure::kDone;
}

}  // namespace cli
