#include "cli/item.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/lookup.h"
#include "cli/pending.h"
#include "failure/exit_code.h"
#include "failure/failure.h"
#include "progress/item_count.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "screen/item_answer.h"
#include "terminal/session.h"
#include "words/item_in_words.h"
#include "words/line_text.h"

namespace cli {
namespace {

constexpr int kMostOfAnItem = 10'000;

std::string code_from(const ItemOptions& options) {
  return record::read_code(options.code, "the code of an item", "CL1 or hose-clips");
}

const progress::ItemCount& count_or_refuse(const std::vector<progress::ItemCount>& counts,
                                           const std::string& code) {
  if (const auto* count = progress::count_of(counts, code)) return *count;
  std::vector<std::string> known;
  known.reserve(counts.size());
  for (const auto& each : counts) known.push_back(each.item->code);
  throw failure::Refusal(fmt::format("there is no item {} in this logbook{}",
                                     quantity::quoted(code), suggestion(code, known)));
}

// What came off is entered once; again only after all of it is back, when it came off again.
void refuse_second_count(const progress::ItemCount& known) {
  if (known.missing() <= 0) return;
  throw failure::Refusal(fmt::format(
      "{} is in the logbook already: {}; if the count was wrong, give the number of its line with "
      "--replace (\"boltwitness history\" shows it), else choose another code",
      known.item->code, words::count_in_words(known)));
}

record::CountedItem item_from(const ItemOptions& options, const progress::ItemCount* known,
                              const logbook::Logbook& logbook) {
  record::CountedItem item;
  item.code = known != nullptr ? known->item->code : code_from(options);
  if (options.what.empty() && known == nullptr) {
    throw failure::UsageError(fmt::format("{} is new; --what says what it is", item.code));
  }
  item.what =
      options.what.empty() ? known->item->what : record::read_label(options.what, "--what", 200);
  item.count = quantity::read_count(options.count, kMostOfAnItem);
  if (!options.before.empty()) {
    item.before = joint_or_refuse(logbook, record::read_joint_code(options.before)).content.code;
  } else if (known != nullptr) {
    item.before = known->item->before;
  }
  return item;
}

void check_not_more_back(const progress::ItemCount& count) {
  if (count.missing() >= 0) return;
  throw failure::Refusal(fmt::format("{}: {} would be back of {} that came off; count again",
                                     count.item->code, count.back, count.off));
}

// The content is written only if afterwards no more is back than came off.
int record_and_tell(logbook::Logbook& logbook, logbook::Recording& recording,
                    const record::Content& content, const std::string& code,
                    const terminal::Session& session) {
  const auto stamp = recording.append(content);
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto& count = count_or_refuse(counts, code);
  check_not_more_back(count);
  recording.commit();
  session.recorded(
      {{stamp, fmt::format("{}; {}", words::line_text(content), words::count_in_words(count))}});
  return failure::kDone;
}

int record_off(const ItemOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"item"});
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto* known = progress::count_of(counts, code_from(options));
  if (known != nullptr) refuse_second_count(*known);
  const auto item = item_from(options, known, logbook);
  return record_and_tell(logbook, recording, item, item.code, session);
}

int record_back(const ItemOptions& options, const terminal::Session& session) {
  auto logbook = session.open_to_write();
  logbook::Recording recording(logbook, session.writer());
  strike_replaced(logbook, recording, options.correction, {"item return"});
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto& known = count_or_refuse(counts, code_from(options));
  const record::ItemReturn back{known.item->code,
                                quantity::read_count(options.back, kMostOfAnItem)};
  return record_and_tell(logbook, recording, back, back.code, session);
}

int tell_items(const ItemOptions& options, const terminal::Session& session) {
  const auto job = session.open_to_read().job();
  auto counts = progress::item_counts(job);
  if (!options.code.empty()) counts = {count_or_refuse(counts, options.code)};
  session.out() << (session.json() ? screen::items_json(counts) : screen::items_text(counts));
  return failure::kDone;
}

}  // namespace

void declare_item(CLI::App& app, Pending& pending) {
  auto options = std::make_shared<ItemOptions>();
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

int run_item(const ItemOptions& options, const terminal::Session& session) {
  if (!options.count.empty()) return record_off(options, session);
  if (!options.back.empty()) return record_back(options, session);
  if (!options.correction.replaced_line.empty()) {
    throw failure::UsageError("say how many: --count N came off, or --back N are back");
  }
  return tell_items(options, session);
}

}  // namespace cli
