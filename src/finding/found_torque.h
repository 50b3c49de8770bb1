#pragma once

#include <optional>

#include "finding/offset_line.h"
#include "quantity/percent.h"
#include "quantity/torque.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace finding {

// How the readings of a found-torque test give a torque.
enum class Basis {
  Bracket,     // short at one setting, on or past at the next
  Line,        // where the line through the mark offsets meets the mark
  UpperBound,  // on or past at the first setting already: the torque is there or below
  LowerBound,  // never on or past: the torque is above the last setting
};

// The parts of the standard uncertainty u, each one standard deviation; u² is their sum of squares.
struct UncertaintyBudget {
  // Of a bracket: half-width / √3. Of a line: half of its 95 % half-width, so that U holds the
  // whole of Student's interval, however few the readings.
  quantity::Torque reading = quantity::Torque::newton_metres(0);
  quantity::Torque wrench = quantity::Torque::newton_metres(0);  // permissible deviation · T / √3
  quantity::Torque mark = quantity::Torque::newton_metres(0);    // mark error · per_degree / √3
  quantity::Torque method = quantity::Torque::newton_metres(0);  // method error · T

  [[nodiscard]] quantity::Torque standard() const;  // u
  [[nodiscard]] quantity::Torque expanded() const;  // U = 2u, about 95 %
};

// The torque at which the mark lined up again: the residual torque on the day of the test, never
// "the original torque". It is the torque at the fastener, with the adapter, prevailing torque
// included.
struct FoundTorque {
  Basis basis = Basis::Bracket;
  std::optional<quantity::Torque> best;  // absent for a bound
  std::optional<quantity::Torque> low;   // of bracket or interval; absent for an upper bound
  std::optional<quantity::Torque> high;  // of bracket or interval; absent for a lower bound
  UncertaintyBudget budget;              // at `best`, or at the bound
  LineUse line_use = LineUse::NoOffsets;
  // How fast torque rises as the mark closes, from a sound line. Where it is not known the mark's
  // part of the budget is zero and only the method's own allowance stands for it.
  std::optional<quantity::Torque> per_degree;

  // What the budget is about: the estimate, or the one bound there is.
  [[nodiscard]] quantity::Torque reference() const;

  // Half of `low` to `high` over the estimate; nothing for a bound.
  [[nodiscard]] std::optional<double> relative_half_width() const;
};

// The half-widths, over the estimate, up to which a bracket or interval is fine and fair (grade.h).
inline constexpr double kFineHalfWidth = 0.04;
inline constexpr double kFairHalfWidth = 0.08;

// The widest step from a mark still short at `from` that gives a fine bracket for certain. The mark
// past the line after a step d gives d/2 <= 0.04 (from + d/2), that is d <= from/12; on it, a
// little more would do.
[[nodiscard]] quantity::Torque widest_fine_step(quantity::Torque from);

// The bracket. With s(k) the first setting at which the mark stood on or past the line and s(k-1)
// the last before it:
//   on at s(k)    best s(k), half-width half of the last step
//   past at s(k)  best in the middle of s(k-1) and s(k), half-width half of the step
// A rectangle of half-width h has the standard uncertainty h/√3 (JCGM 100:2008 4.3.7, from memory);
// the wrench's permissible deviation and the mark error are taken as such rectangles, too.
// `method_error` is the logbook's setting. The readings must be sound (record::check_readings).
//
// The line. It takes the place of the bracket where it is sound (offset_line.h), its 95 % interval
// is narrower than the bracket, and its estimate lies in the bracket. Where there is one bound
// only, the estimate must agree with it and the interval must be fair at least.
[[nodiscard]] FoundTorque found_torque(const record::Measured& measured,
                                       const record::Wrench& wrench,
                                       quantity::Percent method_error);

// InputError where the running torque takes the whole of what was found: the mark cannot line up
// below it, and nothing would be left to clamp.
void check_prevailing(const record::Measured& measured, const FoundTorque& found);

}  // namespace finding
