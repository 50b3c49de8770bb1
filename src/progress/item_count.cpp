#include "progress/item_count.h"

#include <algorithm>
#include <map>

#include "record/address.h"

namespace progress {

int ItemCount::missing_at(record::Moment moment) const {
  int missing = 0;
  for (const auto& [stamp, count] : moves) {
    if (stamp->done_at <= moment) missing += count;
  }
  return missing;
}

int ItemCount::missing_at(const record::Stamp& line) const {
  int missing = 0;
  for (const auto& [stamp, count] : moves) {
    const bool is_before =
        count > 0 ? record::is_earlier(*stamp, line) : stamp->done_at <= line.done_at;
    if (is_before) missing += count;
  }
  return missing;
}

std::vector<ItemCount> item_counts(const record::Job& job) {
  std::vector<ItemCount> counts;
  std::map<std::string, std::size_t> places;
  for (const auto& entry : job.items) {
    const auto [place, is_new] =
        places.try_emplace(record::folded_code(entry.content.code), counts.size());
    if (is_new) counts.emplace_back();
    auto& count = counts[place->second];
    count.item = &entry.content;
    if (count.first_off == nullptr || record::is_earlier(entry.stamp, *count.first_off)) {
      count.first_off = &entry.stamp;
    }
    count.off += entry.content.count;
    count.moves.push_back({&entry.stamp, entry.content.count});
  }
  for (const auto& entry : job.item_returns) {
    const auto place = places.find(record::folded_code(entry.content.code));
    if (place == places.end()) continue;
    counts[place->second].back += entry.content.count;
    counts[place->second].moves.push_back({&entry.stamp, -entry.content.count});
  }
  return counts;
}

const ItemCount* count_of(const std::vector<ItemCount>& counts, std::string_view code) {
  const auto found = std::ranges::find_if(
      counts, [&](const ItemCount& count) { return record::same_code(count.item->code, code); });
  return found == counts.end() ? nullptr : &*found;
}

}  // namespace progress
