#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace record {

// A span of clock time, to the second.
struct SpanOfTime {
  std::chrono::seconds seconds{0};

  bool operator==(const SpanOfTime&) const = default;
};

// The longest span: ten years.
inline constexpr std::chrono::seconds kLongestSpan{10L * 366 * 86'400};

// The span in a text such as "10 min"; nothing where it is none. InputError where it does not begin
// with a number.
[[nodiscard]] std::optional<SpanOfTime> span_of_time_in(std::string_view text);

// Reads "90 s", "10 min", "4 h", "7 days", "6 weeks"; above zero and at most ten years, in whole
// seconds. InputError otherwise.
[[nodiscard]] SpanOfTime read_span_of_time(std::string_view text);

// The canonical text in the largest unit that divides it; read_span_of_time gives it back.
[[nodiscard]] std::string write_exact(const SpanOfTime& span);

// "1 h 05 min", "9 min 30 s", "3 days 4 h": the two largest units, for people. Nothing is rounded
// up, so it never tells more time than there is.
[[nodiscard]] std::string write_rounded(const SpanOfTime& span);

}  // namespace record
