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

void declare_item(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<act::ItemWords>();
  auto* command = app.add_subcommand(
      "item", "Count clips, hoses and connectors off and back; alone, what is still missing");
  auto* code = command->add_option("CODE", options->code, "A short code, such as CL1");
  code->option_text("CODE");
  command->add_option("--what", options->what, "What it is")->option_text("TEXT")->needs(code);
  auto* count = command->add_option("--count", options->count, "How many came off");
  count->option_text("N")->needs(code);
  command->add_option("--before", options->before, "The joint that may not be closed without it")
      ->option_text("JOINT")
      ->needs(count);
  command->get_option("--what")->needs(count);
  command->add_option("--back", options->back, "How many are back in their place")
      ->option_text("N")
      ->needs(code)
      ->excludes(count);
  declare_correction(*command, options->correction);
  command->callback([options, &pending] {
    pending.run = [options](const terminal::Session& session) {
      return run_item(*options, session);
    };
  });
}

int run_item(const act::ItemWords& words, const terminal::Session& session) {
  if (!words.count.empty() || !words.back.empty()) {
    auto logbook = session.open_to_write();
    const auto record = words.count.empty() ? act::record_items_back : act::record_items_off;
    session.tell(record(logbook, session.writer(), words));
    return failure::kDone;
  }
  if (!words.correction.replaced_line.empty()) {
    throw failure::UsageError("say how many: --count N came off, or --back N are back");
  }
  return tell_items(words, session);
}

}  // namespace cli
