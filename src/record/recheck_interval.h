#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "record/running_amount.h"
#include "record/span_of_time.h"

namespace record {

// How long after the final stripe a joint is looked at again: by the clock, or by the machine's own
// counter. Once, as a manual means it that asks for a look after so many hours, or again so long
// after each look.
struct RecheckInterval {
  std::variant<SpanOfTime, RunningAmount> after;
  bool repeats = false;

  RecheckInterval(SpanOfTime span) : after(span) {}
  RecheckInterval(RunningAmount amount) : after(amount) {}

  bool operator==(const RecheckInterval&) const = default;
};

// Reads "4 h", "7 days", "50 running h", "500 km", and with "every" before it one that repeats.
// InputError otherwise; a bare number of hours is by the clock, and zero is refused.
[[nodiscard]] RecheckInterval read_recheck_interval(std::string_view text);

// The canonical text; read_recheck_interval gives the same value back.
[[nodiscard]] std::string write_exact(const RecheckInterval& interval);

// "1 week": how long it is, whether it repeats or not.
[[nodiscard]] std::string length_text(const RecheckInterval& interval);

// "1 week", "1 week and again every 1 week": what stands behind "after".
[[nodiscard]] std::string in_words(const RecheckInterval& interval);

}  // namespace record
