#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "record/word.h"

namespace record {

// What a machine's own counter counts.
enum class Counter { RunningHours, Kilometres, Miles };
template <>
struct Vocabulary<Counter> {
  static constexpr std::array kWords = {Word{Counter::RunningHours, "running h"},
                                        Word{Counter::Kilometres, "km"},
                                        Word{Counter::Miles, "mi"}};
};

// A reading of that counter, or a distance on it.
struct RunningAmount {
  double amount = 0.0;
  Counter counter = Counter::RunningHours;

  bool operator==(const RunningAmount&) const = default;
};

// The most that a counter is taken to show: ten million hours are more than eleven centuries, and
// nothing on wheels has gone so far. More is a slipped key, and from 10^17 on the number written
// would have more digits than are read.
inline constexpr double kMostRunningAmount = 1e7;

// The amount in such a text; nothing where its unit is none of the counter's. InputError where it
// does not begin with a number, and where the counter shows more than kMostRunningAmount.
[[nodiscard]] std::optional<RunningAmount> running_amount_in(std::string_view text);

// Reads "1240 running h" ("running hours"), "500 km", "300 mi" ("miles"). InputError otherwise.
[[nodiscard]] RunningAmount read_running_amount(std::string_view text);

// The same on another counter: kilometres and miles convert (1 mi = 1.609344 km exactly, the
// international mile of 1959); nothing between hours and a distance.
[[nodiscard]] std::optional<RunningAmount> on_counter(const RunningAmount& amount, Counter counter);

// The canonical text; read_running_amount gives the same value back.
[[nodiscard]] std::string write_exact(const RunningAmount& amount);

}  // namespace record
