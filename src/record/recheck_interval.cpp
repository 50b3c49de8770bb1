#include "record/recheck_interval.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

constexpr std::string_view kEvery = "every ";

RecheckInterval read_once(std::string_view text, std::string_view whole) {
  if (const auto span = span_of_time_in(text)) return *span;
  if (const auto amount = running_amount_in(text); amount && amount->amount > 0.0) return *amount;
  throw failure::InputError(fmt::format(
      "{}: expected how long after, such as 4 h, 7 days, 50 running h or 500 km, or \"every 7 "
      "days\" where it repeats",
      quantity::quoted(whole)));
}

}  // namespace

RecheckInterval read_recheck_interval(std::string_view text) {
  const auto trimmed = quantity::trimmed(text);
  if (!quantity::starts_with_in_any_case(trimmed, kEvery)) return read_once(text, text);
  auto interval = read_once(trimmed.substr(kEvery.size()), text);
  interval.repeats = true;
  return interval;
}

std::string write_exact(const RecheckInterval& interval) {
  return (interval.repeats ? std::string(kEvery) : std::string()) + length_text(interval);
}

std::string length_text(const RecheckInterval& interval) {
  return std::visit([](const auto& each) { return write_exact(each); }, interval.after);
}

std::string in_words(const RecheckInterval& interval) {
  const auto length = length_text(interval);
  return interval.repeats ? fmt::format("{0} and again every {0}", length) : length;
}

}  // namespace record
