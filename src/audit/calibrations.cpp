#include "audit/calibrations.h"

#include "record/address.h"

namespace audit {

Calibrations::Calibrations(const record::Job& job) {
  for (const auto& entry : job.wrenches) {
    const auto& wrench = entry.content;
    if (!wrench.calibrated) continue;
    by_name_[record::folded_code(wrench.name)][*wrench.calibrated] = &wrench;
    is_any_off_ = is_any_off_ || record::was_out_of_tolerance(wrench);
  }
}

const record::Wrench* Calibrations::after(std::string_view name, record::Day day) const {
  const auto wrench = by_name_.find(record::folded_code(name));
  if (wrench == by_name_.end()) return nullptr;
  const auto next = wrench->second.upper_bound(day);
  return next == wrench->second.end() ? nullptr : next->second;
}

const record::Wrench* Calibrations::found_off_after(std::string_view name, record::Day day) const {
  const auto* next = after(name, day);
  return next != nullptr && record::was_out_of_tolerance(*next) ? next : nullptr;
}

}  // namespace audit
