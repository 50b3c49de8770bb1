#pragma once

#include <map>
#include <string>
#include <string_view>
#include <unordered_map>

#include "record/job.h"

namespace audit {

// The calibrations of every wrench by their day; an entry made anew takes the place of the old one.
class Calibrations {
 public:
  // Points into `job`.
  explicit Calibrations(const record::Job& job);

  [[nodiscard]] bool is_any_off() const { return is_any_off_; }

  // The calibration that followed a use on this day, whatever it found; nothing where none did.
  [[nodiscard]] const record::Wrench* after(std::string_view name, record::Day day) const;

  // The calibration that followed a use on this day, where it found the wrench out of tolerance;
  // else nothing.
  [[nodiscard]] const record::Wrench* found_off_after(std::string_view name, record::Day day) const;

 private:
  std::unordered_map<std::string, std::map<record::Day, const record::Wrench*>> by_name_;  // folded
  bool is_any_off_ = false;
};

}  // namespace audit
