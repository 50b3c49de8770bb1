#pragma once

#include <string>
#include <string_view>
#include <variant>

#include "record/running_amount.h"
#include "record/span_of_time.h"

namespace record {

// How long after the final value a joint is looked at again: by the clock, or by the machine's own
// counter.
using RecheckInterval = std::variant<SpanOfTime, RunningAmount>;

// Reads "4 h", "7 days", "50 running h", "500 km". InputError otherwise; a bare number of hours is
// by the clock, and zero is refused.
[[nodiscard]] RecheckInterval read_recheck_interval(std::string_view text);

// The canonical text; read_recheck_interval gives the same value back.
[[nodiscard]] std::string write_exact(const RecheckInterval& interval);

}  // namespace record
