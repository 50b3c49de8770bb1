#include "plan/turned_stripes.h"

#include "record/address.h"

namespace plan {

using Look = record::Entry<record::Recheck>;

TurnedStripes::TurnedStripes(const record::Job& job) {
  for (const auto& entry : job.rechecks) {
    if (!entry.content.turned) continue;
    for (const int position : entry.content.positions) {
      auto& last = last_[{record::folded_code(entry.content.joint), position}];
      if (last == nullptr || record::is_later(entry.stamp, last->stamp)) last = &entry;
    }
  }
}

const Look* TurnedStripes::last(std::string_view joint, int position) const {
  if (last_.empty()) return nullptr;
  const auto found = last_.find({record::folded_code(joint), position});
  return found == last_.end() ? nullptr : found->second;
}

const Look* TurnedStripes::since_out(std::string_view joint, int position,
                                     const record::Entry<record::Removal>* removal) const {
  const auto* look = last(joint, position);
  if (look == nullptr || removal == nullptr) return look;
  return record::is_later(look->stamp, removal->stamp) ? look : nullptr;
}

}  // namespace plan
