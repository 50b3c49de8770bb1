#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "fastener/torque_range.h"
#include "finding/search_ceiling.h"
#include "quantity/torque.h"
#include "record/measured.h"
#include "record/removal.h"
#include "record/wrench.h"

namespace finding {

// Where a search begins because of what was found before (search_start.h), in place of the far end
// of what is expected.
struct SearchStart {
  enum class From { Siblings, EarlierBound };
  quantity::Torque torque;
  fastener::TorqueRange found;  // what it follows
  From from = From::Siblings;
};

// Of a setting at which the mark was there at once: where the next test of it begins.
inline constexpr double kRestartShare = 2.0 / 3.0;

// A found-torque test under way. Torques are those at the fastener, prevailing torque included.
struct Search {
  const record::Measured& measured;  // the readings so far, none at first
  const record::Wrench& wrench;
  std::optional<fastener::TorqueRange> expected;    // tolerance, or plausible band; or nothing
  std::optional<Ceiling> ceiling;                   // nothing where neither limit is known
  std::optional<SearchStart> start = std::nullopt;  // nothing where nothing was found before
};

// Pull at this setting next, on the wrench's own scale and graduation.
struct NextSetting {
  double setting = 0.0;
  std::string why;
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
//   first     where what was found before says so (`start`); else three fifths of the middle of
//             what is expected, but at most nine tenths of its low end; the wrench's least setting
//             where that is higher or nothing is expected
//   far       below that first setting: straight to it. Nothing is looked for down there, and a
//             twelfth of a small setting would creep
//   coarse    while a coarse step stays below what is expected: the widest step that is sure to
//             give a fine bracket (widest_fine_step, a twelfth of the last setting)
//   near      from there to the top of what is expected, or to the ceiling where that is lower: the
//             rest of the way in as many equal steps as coarse ones would take, none wider than a
//             coarse one. So they grow finer against the torque the higher they go, and none is
//             wasted on a small rest
//   unknown   where nothing is expected and no sibling was found: a quarter of the last setting at
//   a time, to be narrowed
//             after backing off; a twelfth would take 29 pulls from end to end of a wrench 1 to 10
// One limit alone has no width: coarse throughout. All is rounded to the graduation, by at least
// one graduation and never beyond a coarse step. A step that would pass the ceiling is cut to it.
// So every bracket that a search closes near what is expected is fine, unless the graduation is too
// coarse. The three fifths, nine tenths and quarter are this program's own choice;
// tests/benchmark/next_setting_benchmark.cpp shows what they come to.
[[nodiscard]] Proposal next_setting(const Search& search);

// Why no search can find anything at this position, after how it came out: the hole was empty, the
// fastener sheared, or no teardown mark was drawn. Nothing where a search makes sense.
[[nodiscard]] std::optional<std::string> nothing_to_search(const record::Removal& removal);

}  // namespace finding
