#pragma once

#include <optional>
#include <variant>

#include "finding/found_torque.h"
#include "record/specification.h"

namespace finding {

// One test, for the question what would have told more. Settings and steps below are on the scale
// of its wrench and adapter.
struct Tested {
  const record::Measured& measured;
  const record::Wrench& wrench;  // as it was on the day
  const FoundTorque& torque;
  // What no pull may pass (search_ceiling.h), at the fastener; nothing where that is not known.
  std::optional<quantity::Torque> ceiling = {};
};

// The mark was left on the line: one pull more, at this setting, to see it past the line.
struct OnePullFurther {
  double setting = 0.0;
};
// The same wrench in steps of this size, after backing the fastener off; on until the mark is past
// the line where it takes that.
struct FinerSteps {
  bool until_past = false;
  double step = 0.0;
  double from = 0.0;
  double to = 0.0;
};
// A wrench of the same accuracy, but with a scale fine enough for this step.
struct FinerScale {
  bool until_past = false;
  double step = 0.0;
};
// A better wrench: no step is fine enough for this one.
struct BetterWrench {
  quantity::Percent now;
  quantity::Percent better;
  bool until_past = false;
  double step = 0.0;
};
// The readings give one bound: the other end has to be found.
struct OtherEnd {
  bool above = true;  // go on above `from`; else start again below it
  double from = 0.0;
  double step = 0.0;
};
// The mark lined up at more than one setting, or the steps were as fine already: finer ones do not
// do it, but where the line through offsets meets the mark may. `noted` of the readings have one.
struct Offsets {
  std::size_t noted = 0;
};
// Neither: what is left of the uncertainty without the reading part is more than the distance to
// the nearest limit, even with a wrench of ±1 %.
struct TooNear {};

using Remedy =
    std::variant<OnePullFurther, FinerSteps, FinerScale, BetterWrench, OtherEnd, Offsets, TooNear>;

struct Advice {
  Remedy remedy;
  quantity::Torque margin;  // from the finding to the nearest limit
  quantity::Torque floor;   // U without reading and mark, however fine the step
};

// What would decide an undecided finding if it came out at the same torque again. With U = 2u, the
// margin m to the nearest limit and w between the first and the last setting at which the mark was
// on the line, steps of d decide where one of these holds:
//   d²/12 + mark² + others² <= (m/2)²           ended with the mark on the line
//   (d + w/2)²/3 + others² <= (m/2)²            pulled on until it is past
// One pull of the last step further comes first where it decides. Then the largest such step that
// the graduation allows; else the largest of 1, 2, 5, 10 ... (and tenths) on a finer scale; else
// the same with a wrench of ±3, 2 or 1 %. A step below 1 % of the torque is never advised: no hand
// pulls that evenly, and no pull above the ceiling. Nor is what was done: steps lead to a setting
// that was not pulled, and a finer scale has a step finer than the last one. Nothing where the
// finding is decided.
[[nodiscard]] std::optional<Advice> what_would_decide(const Tested& tested,
                                                      const record::ToleranceWindow& window);

// What would give a bracket fine enough for grade A. Nothing where it is. Where the mark was on the
// line over w, w/2 of the half-width is the line's own and no step takes it away.
[[nodiscard]] std::optional<Remedy> what_would_narrow(const Tested& tested);

}  // namespace finding
