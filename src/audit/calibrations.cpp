#include "audit/calibrations.h"

#include <iterator>

#include "record/address.h"

namespace audit {

Calibrations::Calibrations(const record::Job& job) {
  for (const auto& entry : job.wrenches) {
    const auto& wrench = entry.content;
    auto& of_wrench = by_name_[record::folded_code(wrench.name)];
    if (!wrench.calibrated) {
      of_wrench.before = &wrench;
      continue;
    }
    auto& calibrated = of_wrench.by_day[*wrench.calibrated];
    calibrated.wrench = &wrench;
    if (calibrated.first_told == nullptr ||
        record::is_earlier(entry.stamp, *calibrated.first_told)) {
      calibrated.first_told = &entry.stamp;
    }
    is_any_off_ = is_any_off_ || wrench.found_off.has_value();
  }
}

const record::Wrench* Calibrations::after(std::string_view name, record::Day day) const {
  const auto wrench = by_name_.find(record::folded_code(name));
  if (wrench == by_name_.end()) return nullptr;
  const auto next = wrench->second.by_day.upper_bound(day);
  return next == wrench->second.by_day.end() ? nullptr : next->second.wrench;
}

const record::Wrench* Calibrations::if_off(const OfWrench& wrench,
                                           ByDay::const_iterator calibration) {
  const auto* found = calibration->second.wrench;
  if (record::was_out_of_tolerance(*found)) return found;
  const auto* until_then =
      calibration == wrench.by_day.begin() ? wrench.before : std::prev(calibration)->second.wrench;
  const bool is_more_than_allowed = until_then != nullptr && found->found_off &&
                                    *found->found_off > record::permissible_deviation(*until_then);
  return is_more_than_allowed ? found : nullptr;
}

const record::Wrench* Calibrations::found_off_after(std::string_view name,
                                                    const record::Stamp& use) const {
  const auto wrench = by_name_.find(record::folded_code(name));
  if (wrench == by_name_.end()) return nullptr;
  const auto& by_day = wrench->second.by_day;
  const auto day = record::local_day(use.done_at);
  const auto same = by_day.find(day);
  if (same != by_day.end() && record::is_earlier(use, *same->second.first_told)) {
    if (const auto* off = if_off(wrench->second, same)) return off;
  }
  const auto next = by_day.upper_bound(day);
  return next == by_day.end() ? nullptr : if_off(wrench->second, next);
}

std::vector<Calibrations::Outcome> Calibrations::outcomes() const {
  std::map<std::string_view, const OfWrench*> in_order;
  for (const auto& [name, wrench] : by_name_) in_order.emplace(name, &wrench);
  std::vector<Outcome> all;
  for (const auto& [name, wrench] : in_order) {
    for (auto each = wrench->by_day.begin(); each != wrench->by_day.end(); ++each) {
      const auto& [day, calibrated] = *each;
      all.push_back({calibrated.wrench, calibrated.first_told, if_off(*wrench, each) != nullptr});
    }
  }
  return all;
}

}  // namespace audit
