#include "audit/calibrations.h"

#include "record/address.h"

namespace audit {

Calibrations::Calibrations(const record::Job& job) {
  for (const auto& entry : job.wrenches) {
    const auto& wrench = entry.content;
    if (!wrench.calibrated) continue;
    auto& calibrated = by_name_[record::folded_code(wrench.name)][*wrench.calibrated];
    calibrated.wrench = &wrench;
    if (calibrated.first_told == nullptr ||
        record::is_earlier(entry.stamp, *calibrated.first_told)) {
      calibrated.first_told = &entry.stamp;
    }
    is_any_off_ = is_any_off_ || record::was_out_of_tolerance(wrench);
  }
}

const record::Wrench* Calibrations::after(std::string_view name, record::Day day) const {
  const auto wrench = by_name_.find(record::folded_code(name));
  if (wrench == by_name_.end()) return nullptr;
  const auto next = wrench->second.upper_bound(day);
  return next == wrench->second.end() ? nullptr : next->second.wrench;
}

const record::Wrench* Calibrations::found_off_after(std::string_view name,
                                                    const record::Stamp& use) const {
  const auto wrench = by_name_.find(record::folded_code(name));
  if (wrench == by_name_.end()) return nullptr;
  const auto day = record::local_day(use.done_at);
  const auto same = wrench->second.find(day);
  if (same != wrench->second.end() && record::is_earlier(use, *same->second.first_told) &&
      record::was_out_of_tolerance(*same->second.wrench)) {
    return same->second.wrench;
  }
  const auto* next = after(name, day);
  return next != nullptr && record::was_out_of_tolerance(*next) ? next : nullptr;
}

}  // namespace audit
