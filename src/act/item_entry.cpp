#include "act/item_entry.h"

#include <fmt/format.h>

#include "act/amendment.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "audit/audit.h"
#include "audit/rules.h"
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
  item.what = words.what.empty() ? known->item->what : record::read_text(words.what, "--what", 200);
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

// The words, with what they leave out as the line before had it.
ItemWords completed(ItemWords words, const Amendment& amendment) {
  KeptWords kept(words.correction);
  if (const auto* before = amendment.before<record::CountedItem>()) {
    KeptWords::fill(words.what, before->what);
    KeptWords::fill(words.count, std::to_string(before->count));
    kept.take("before", words.before, before->before);
  } else if (const auto* back = amendment.before<record::ItemReturn>()) {
    KeptWords::fill(words.back, std::to_string(back->count));
  } else {
    return words;
  }
  kept.check();
  return words;
}

void check_item_words(const ItemWords& words) {
  if (words.code.empty()) throw failure::UsageError("name the item: item CL1 --count 4 --what ...");
  if (words.count.empty() && words.back.empty()) {
    throw failure::UsageError("say how many: --count N came off, or --back N are back");
  }
  if (words.count.empty() && (!words.what.empty() || !words.before.empty())) {
    throw failure::UsageError("--what and --before belong to --count N, how many came off");
  }
}

record::Content items_off(const ItemWords& words, const std::vector<progress::ItemCount>& counts,
                          const record::Apart& apart, const logbook::Logbook& logbook) {
  const auto* known = progress::count_of(counts, code_from(words));
  // One that counts though it was struck (record/kept_by_use.h) is entered again as if it were new.
  if (known != nullptr && apart.kept(known->first_off->id) != nullptr) known = nullptr;
  if (known != nullptr) refuse_second_count(*known);
  return item_from(words, known, logbook);
}

record::Content items_back(const ItemWords& words, const std::vector<progress::ItemCount>& counts,
                           record::Moment done_at) {
  const auto code = code_from(words);
  const auto& known = item_or_refuse(counts, code);
  if (done_at < known.first_off->done_at) {
    throw failure::Refusal(fmt::format(
        "{} came off on {} (line {}), after this: what went back before is none of it. Give the "
        "time "
        "with --at",
        known.item->code, record::write_local(known.first_off->done_at), known.first_off->line));
  }
  return record::ItemReturn{known.item->code, quantity::read_count(words.back, kMostOfAnItem)};
}

// The joint that waits for them was closed by then: what the audit says of that.
std::vector<std::string> told_too_late(const record::Job& job, const progress::ItemCount& count,
                                       record::Moment now) {
  const auto survey = finding::survey(job);
  std::vector<std::string> remarks;
  for (const auto& found :
       audit::run_for_joint({job, survey, now}, count.item->before).deviations) {
    if (found.rule != audit::kClosedOver.name || found.settled != nullptr) continue;
    if (!found.id.ends_with(":" + count.item->code)) continue;
    remarks.push_back(fmt::format("{}; {}", found.says, found.what_to_do));
  }
  return remarks;
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

Done record_items(logbook::Logbook& logbook, const logbook::Writer& stated, const ItemWords& said) {
  Amendment amendment(logbook, stated, said.correction);
  const auto& writer = amendment.writer();
  amendment.strike_replaced({"item", "item return"});
  const auto words = completed(said, amendment);
  check_item_words(words);
  const bool is_back = !words.back.empty();
  amendment.check_same_kind(is_back ? "item return" : "item");
  const auto before = logbook.job_of_none();
  const auto counts_before = progress::item_counts(before);
  const auto content = is_back ? items_back(words, counts_before, writer.done_at)
                               : items_off(words, counts_before, before.apart, logbook);
  auto stamp = amendment.append(content);
  const auto job = logbook.job_of_none();
  const auto counts = progress::item_counts(job);
  const auto code = code_from(words);
  const auto& count = item_or_refuse(counts, code);
  check_not_more_back(count);
  Done done{{{std::move(stamp),
              fmt::format("{}; {}", words::line_text(content), words::count_in_words(count))}},
            {}};
  if (is_back && !count.item->before.empty()) {
    done.remarks = told_too_late(logbook.job_of(count.item->before), count, amendment.writer().now);
  }
  amendment.commit();
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
