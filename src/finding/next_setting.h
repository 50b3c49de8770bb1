#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fastener/torque_range.h"
#include "finding/search_ceiling.h"
#include "quantity/torque.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace finding {

// A found-torque test under way. Torques are those at the fastener, prevailing torque included.
struct Search {
  const record::Measured& measured;  // the readings so far, none at first
  const record::Wrench& wrench;
  std::optional<fastener::TorqueRange> expected;  // tolerance, or plausible band; or nothing
  std::optional<Ceiling> ceiling;                 // nothing where neither limit is known
};

// Pull at this setting next, on the wrench's own scale and graduation.
struct NextSetting {
  double setting = 0.0;
  std::string_view why;
};

enum class StopReason {
  Bracketed,    // the mark was reached, and the bracket is fine enough for grade A
  MarkReached,  // it was reached, the bracket is wider, and only backing off can narrow it
  Ceiling,      // the next setting would pass the ceiling
  WrenchEnds,   // the wrench's range ends, or begins above the ceiling
};

// No further pull, and what to do instead.
struct Stop {
  StopReason reason = StopReason::Bracketed;
  std::string text;
};

using Proposal = std::variant<NextSetting, Stop>;

// Which setting tells most, in rising order and never above the ceiling:
//   first     two thirds of the middle of what is expected, but at most nine tenths of its low end;
//             the wrench's least setting where that is higher or nothing is expected
//   coarse    while a coarse step stays below what is expected: the widest step that is sure to
//             give a fine bracket (widest_fine_step, a twelfth of the last setting)
//   fine      from there on: a quarter of the width of what is expected, so that half a step is an
//             eighth of the tolerance; no less than 2 % of the last setting (below that it is the
//             wrench that scatters) and no more than a coarse step; one
//             limit alone has no width and asks for no finer than coarse
// rounded down to the graduation, but at least one graduation. A step that would pass the ceiling
// is cut to it. So every bracket a search closes is fine, unless the graduation is too coarse. The
// two thirds, nine tenths, quarter and 2 % are this program's own choice;
// tests/benchmark/next_setting_benchmark.cpp shows what they come to.
[[nodiscard]] Proposal next_setting(const Search& search);

}  // namespace finding
