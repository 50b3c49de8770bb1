#include "act/item_entry.h"

#include <fmt/format.h>

#include "act/lookup.h"
#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/item_in_words.h"
#include "words/line_text.h"

namespace act {
namespace {

constexpr int kMostOfAnItem = 10'000;

std::string code_from(const ItemWords& words) {
  return record::read_code(words.code, "the code of an item", "CL1 or hose-clips");
}

// What came off is entered once; again only after all of it is back, when it came off again.
void refuse_second_count(const progress::ItemCount& known) {
  if (known.missing() <= 0) return;
  throw failure::Refusal(fmt::format(
      "{} is in the logbook already: {}; if the count was wrong, give the number of its line with "
      "--replace (\"boltwitness history\" shows it), else choose another code",
      known.item->code, words::count_in_words(known)));
}

record::CountedItem item_from(const ItemWords& words, const progress::ItemCount* known,
                              const logbook::Logbook& logbook) {
  record::CountedItem item;
  item.code = known != nullptr ? known->item->code : code_from(words);
  if (words.what.empty() && known == nullptr) {
    throw failure::UsageError(fmt::format("{} is new; --what says what it is", item.code));
  }
  item.what =
      words.what.empty() ? known->item->what : record::read_label(words.what, "--what", 200);
  item.count = quantity::read_count(words.count, kMostOfAnItem);
  if (!words.before.empty()) {
    item.before = joint_or_refuse(logbook, record::read_joint_code(words.before)).content.code;
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
Done record_and_count(logbook::Logbook& logbook, logbook::Recording& recording,
                      const record::Content& content, const std::string& code) {
  auto stamp = recording.append(content);
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto& count = item_or_refuse(counts, code);
  check_not_more_back(count);
  recording.commit();
  return {{{std::move(stamp),
            fmt::format("{}; {}", words::line_text(content), words::count_in_words(count))}},
          {}};
}

}  // namespace

const progress::ItemCount& item_or_refuse(const std::vector<progress::ItemCount>& counts,
                                          const std::string& code) {
  if (const auto* count = progress::count_of(counts, code)) return *count;
  std::vector<std::string> known;
  known.reserve(counts.size());
  for (const auto& each : counts) known.push_back(each.item->code);
  throw failure::Refusal(fmt::format("there is no item {} in this logbook{}",
                                     quantity::quoted(code), suggestion(code, known)));
}

Done record_items_off(logbook::Logbook& logbook, const logbook::Writer& writer,
                      const ItemWords& words) {
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, words.correction, {"item"});
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto* known = progress::count_of(counts, code_from(words));
  if (known != nullptr) refuse_second_count(*known);
  const auto item = item_from(words, known, logbook);
  return record_and_count(logbook, recording, item, item.code);
}

Done record_items_back(logbook::Logbook& logbook, const logbook::Writer& writer,
                       const ItemWords& words) {
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, words.correction, {"item return"});
  const auto job = logbook.job();
  const auto counts = progress::item_counts(job);
  const auto& known = item_or_refuse(counts, code_from(words));
  const record::ItemReturn back{known.item->code, quantity::read_count(words.back, kMostOfAnItem)};
  return record_and_count(logbook, recording, back, back.code);
}

}  // namespace act
