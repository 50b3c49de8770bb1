#include "record/recheck_interval.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "quantity/number_text.h"

namespace record {

RecheckInterval read_recheck_interval(std::string_view text) {
  if (const auto span = span_of_time_in(text)) return *span;
  if (const auto amount = running_amount_in(text); amount && amount->amount > 0.0) return *amount;
  throw failure::InputError(
      fmt::format("{}: expected how long after, such as 4 h, 7 days, 50 running h or 500 km",
                  quantity::quoted(text)));
}

std::string write_exact(const RecheckInterval& interval) {
  return std::visit([](const auto& each) { return write_exact(each); }, interval);
}

}  // namespace record
