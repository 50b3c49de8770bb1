#include "record/span_of_time.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

struct TimeUnit {
  std::string_view name;     // as written
  std::string_view plural;   // as also read
  std::string_view spelled;  // as also read
  std::int64_t seconds;
};

constexpr std::array kUnits = {
    TimeUnit{"week", "weeks", "wk", 604'800}, TimeUnit{"day", "days", "d", 86'400},
    TimeUnit{"h", "hours", "hour", 3'600},    TimeUnit{"min", "minutes", "minute", 60},
    TimeUnit{"s", "seconds", "second", 1},
};

std::string with_unit(std::int64_t amount, const TimeUnit& unit) {
  const bool spelled_out = unit.seconds >= 86'400;
  return fmt::format("{} {}", amount, spelled_out && amount != 1 ? unit.plural : unit.name);
}

}  // namespace

std::optional<SpanOfTime> span_of_time_in(std::string_view text) {
  const auto number = quantity::read_leading_number(quantity::trimmed(text), text);
  const auto unit = std::ranges::find_if(kUnits, [&](const TimeUnit& each) {
    return quantity::same_in_any_case(number.rest, each.name) ||
           quantity::same_in_any_case(number.rest, each.plural) ||
           quantity::same_in_any_case(number.rest, each.spelled);
  });
  const double seconds =
      unit == kUnits.end() ? 0.0 : number.value * static_cast<double>(unit->seconds);
  if (seconds < 1.0 || seconds > static_cast<double>(kLongestSpan.count()) ||
      seconds != std::floor(seconds)) {
    return std::nullopt;
  }
  return SpanOfTime{std::chrono::seconds(static_cast<std::int64_t>(seconds))};
}

SpanOfTime read_span_of_time(std::string_view text) {
  if (const auto span = span_of_time_in(text)) return *span;
  throw failure::InputError(fmt::format(
      "{}: expected a time in whole seconds, up to ten years, such as 10 min, 4 h or 7 days",
      quantity::quoted(text)));
}

std::string write_exact(const SpanOfTime& span) {
  const auto seconds = span.seconds.count();
  const auto unit = std::ranges::find_if(
      kUnits, [&](const TimeUnit& each) { return seconds % each.seconds == 0; });
  return with_unit(seconds / unit->seconds, *unit);
}

std::string write_rounded(const SpanOfTime& span) {
  auto left = span.seconds.count();
  const auto largest =
      std::ranges::find_if(kUnits, [&](const TimeUnit& each) { return left >= each.seconds; });
  if (largest == kUnits.end()) return "0 s";
  std::string text = with_unit(left / largest->seconds, *largest);
  left %= largest->seconds;
  const auto next = std::next(largest);
  if (next != kUnits.end() && left >= next->seconds) {
    text += ' ' + with_unit(left / next->seconds, *next);
  }
  return text;
}

}  // namespace record
