#pragma once

#include <string_view>

#include "finding/found_torque.h"
#include "record/specification.h"

namespace finding {

// Found torque against specification.
enum class Verdict { Within, Low, High, Undecided, NotComparable };

// "within", "low", "high", "undecided", "not comparable".
[[nodiscard]] std::string_view word_of(Verdict verdict);

// A torque with its expanded uncertainty, or a bound of it.
struct Uncertain {
  Basis basis = Basis::Bracket;
  quantity::Torque reference;
  quantity::Torque expanded;
};

// The decision rule of ISO 14253-1 (from memory) with limits TL, TU, result T and guard band U =
// 2u, the whole of what is shown as ± U, as its 1998 and 2013 editions take it:
//   within     TL + U <= T <= TU - U     (a limit that is just touched is kept)
//   low        T + U < TL            high   T - U > TU
//   undecided  otherwise
// The 2017 edition takes 1.65 u by default (95 % on one side), which would decide sooner; then a
// verdict would not follow from the figures that stand beside it.
// A limit that the specification does not have is never broken. A finding that is only a bound
// decides what the bound decides: an upper bound may prove low, a lower bound high, neither within
// a two-sided tolerance.
// Less data never decides more, but for seven exceptions, which the page help found-torque names
// and tests/finding/less_data_test.cpp tells apart:
//   one bound alone      its uncertainty has no part for the steps, which a bracket has
//   a moved estimate     a reading left out moves it, and the parts that are shares of it
//   a line of fewer      offsets left out leave less scatter, or a line that more would refute
//   on it too far        the mark was on the line over more than the pen explains
//   a stiffer fastener   offsets, a short length or a rough condition show it
//   a smaller head       below 4 mm at its corner, where half a pen line is more than 5°
//   a worse certificate  than the standard permits
[[nodiscard]] Verdict judge(const Uncertain& torque, const record::ToleranceWindow& window);
[[nodiscard]] Verdict judge(const FoundTorque& found, const record::ToleranceWindow& window);

}  // namespace finding
