#pragma once

#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

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

  // The calibration that followed this use, where it found the wrench out of tolerance, or further
  // off than was allowed for until then (the deviation that the calibration before it states); else
  // nothing. One of the same day followed where it was entered after the use: of a calibration the
  // day alone is on record, and where the order cannot be told the use is in doubt.
  [[nodiscard]] const record::Wrench* found_off_after(std::string_view name,
                                                      const record::Stamp& use) const;

  // Every calibration, by wrench and day, and whether it counts against what was done before it.
  struct Outcome {
    const record::Wrench* wrench = nullptr;     // as entered last
    const record::Stamp* first_told = nullptr;  // the earliest of its entries, by time done
    bool is_off = false;
  };
  [[nodiscard]] std::vector<Outcome> outcomes() const;

 private:
  struct Calibrated {
    const record::Wrench* wrench = nullptr;     // as entered last
    const record::Stamp* first_told = nullptr;  // the earliest of its entries, by time done
  };
  using ByDay = std::map<record::Day, Calibrated>;
  struct OfWrench {
    ByDay by_day;
    const record::Wrench* before = nullptr;  // as entered without a calibration; may be none
  };
  // Of one of these: the calibration, where it counts against what was done before it.
  [[nodiscard]] static const record::Wrench* if_off(const OfWrench& wrench,
                                                    ByDay::const_iterator calibration);
  std::unordered_map<std::string, OfWrench> by_name_;  // folded
  bool is_any_off_ = false;
};

}  // namespace audit
