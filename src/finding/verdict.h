#pragma once

#include <string_view>

#include "finding/found_torque.h"
#include "record/specification.h"

namespace finding {

// Found torque against specification.
enum class Verdict { Within, Low, High, Undecided, NotComparable };

// "within", "low", "high", "undecided", "not comparable".
[[nodiscard]] std::string_view word_of(Verdict verdict);

// The decision rule of ISO 14253-1 (from memory; the guard band is the whole U, as in its 1998 and
// 2013 editions) with limits TL, TU, result T and expanded uncertainty U:
//   within     TL + U <= T <= TU - U
//   low        T + U < TL            high   T - U > TU
//   undecided  otherwise
// A limit that the specification does not have is never broken. A finding that is only a bound
// decides what the bound decides: an upper bound may prove low, a lower bound high, neither within
// a two-sided tolerance.
[[nodiscard]] Verdict judge(const FoundTorque& found, const record::ToleranceWindow& window);

}  // namespace finding
