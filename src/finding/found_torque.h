#pragma once

#include <optional>

#include "finding/offset_line.h"
#include "finding/torque_per_degree.h"
#include "quantity/percent.h"
#include "quantity/torque.h"
#include "quantity/torque_unit.h"
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
// What does not come in is zero: the mark's part where `short` and `past` enclose the torque (a
// mark that is called so stands on that side of the line), the grip's without an adapter.
struct UncertaintyBudget {
  // Of a bracket: half-width / √3. Of a line: half of its 95 % half-width, so that U holds the
  // whole of Student's interval, however few the readings.
  quantity::Torque reading = quantity::Torque::newton_metres(0);
  quantity::Torque wrench = quantity::Torque::newton_metres(0);  // permissible deviation · T / √3
  quantity::Torque mark = quantity::Torque::newton_metres(0);    // mark error · slope / √3
  quantity::Torque method = quantity::Torque::newton_metres(0);  // stopping late: method error · T
  quantity::Torque grip = quantity::Torque::newton_metres(0);    // through an adapter: kGripError
  quantity::Torque running = quantity::Torque::newton_metres(0);  // kRunningError / √3

  [[nodiscard]] quantity::Torque standard() const;  // u
  [[nodiscard]] quantity::Torque expanded() const;  // U = 2u, about 95 %
};

// How far the hand may be from where L was measured to, as a share of L: 18 mm at 350 mm, a fifth
// of a hand's width. And how far a running torque goes up and down while it is read, as a share of
// it. Both are half-widths of rectangles and this program's own assumptions.
inline constexpr double kGripError = 0.05;
inline constexpr double kRunningError = 0.10;

// The torque at which the mark lined up again: the residual torque on the day of the test, never
// "the original torque". It is the torque at the fastener, with the adapter, prevailing torque
// included.
struct FoundTorque {
  Basis basis = Basis::Bracket;
  std::optional<quantity::Torque> best;  // absent for a bound
  std::optional<quantity::Torque> low;   // of bracket or interval; absent for an upper bound
  std::optional<quantity::Torque> high;  // of bracket or interval; absent for a lower bound
  UncertaintyBudget budget;              // at `best`, or at the bound
  // The last setting that was short and the first past, where they are what counts as `reading`.
  struct Enclosed {
    quantity::Torque from;
    quantity::Torque to;
  };
  std::optional<Enclosed> enclosed;
  LineUse line_use = LineUse::NoOffsets;
  quantity::Angle mark_error = quantity::Angle::degrees(0.0);  // torque_per_degree.h
  TorquePerDegree slope = {quantity::Torque::newton_metres(0), quantity::Torque::newton_metres(0),
                           quantity::Torque::newton_metres(0), SlopeFrom::Share};

  // The mark was on the line and never past it: how far above the last setting it would still have
  // been on the line is not known, but for the pen's width.
  bool open_above = false;

  // What the budget is about: the estimate, or the one bound there is.
  [[nodiscard]] quantity::Torque reference() const;

  // Half of what lies between `low` and `high`, over the estimate: the bracket as it is shown,
  // which grade and advice are about. Nothing for a bound.
  [[nodiscard]] std::optional<double> relative_half_width() const;
};

// The half-widths, over the estimate, up to which a bracket or interval is fine and fair (grade.h).
inline constexpr double kFineHalfWidth = 0.04;
inline constexpr double kFairHalfWidth = 0.08;

// Whether a half-width over the estimate is more than a share; 48 to 52 is 4 % and no more, in
// every unit.
[[nodiscard]] bool is_wider_than(double relative_half_width, double share);

// The widest step from a mark still short at `from` that gives a fine bracket for certain. The mark
// past the line after a step d gives d/2 <= 0.04 (from + d/2), that is d <= from/12; on it, a
// little more would do.
[[nodiscard]] quantity::Torque widest_fine_step(quantity::Torque from);

// The bracket. With s the last setting at which the mark was short (or did not move), a to b those
// at which it was on the line, p the first past it, d = a - s the step before the mark:
//   past straight after short   best in the middle of s and p; low s, high p
//   on once                     best a; low a - d/2, high a + d/2, at most p
//   on more than once           best in the middle of a and b; low s, high b and the whole step
//                               before it, at most p
// Two readings of it, and the narrower one counts in the budget:
//   closed by a mark past it    the torque lies between s and p:        half-width (p - s)/2, no
//                               part for the mark
//   from where it came on       half-width d/2, and the mark's part: within the mark error a pen
//                               line looks on; where it was on from a to b and half of that is
//                               more, the pen does not explain it, and half of that counts
// No reading left out makes U smaller, but for the parts that go with the torque itself and for one
// that shows the mark on the line over more than the pen explains; and without the mark past the
// line the bracket is no narrower than with it.
//
// A rectangle of half-width h has the standard uncertainty h/√3 (JCGM 100:2008 4.3.7, from memory);
// the wrench's permissible deviation and the mark error are taken as such rectangles, too.
// `method_error` is the logbook's setting. The readings must be sound (record::check_readings).
//
// A bound is what the marks say: on or past at the first setting is an upper bound (on it: with the
// mark's part), never on is a lower one.
//
// The line. It takes the place of the bracket where it is sound (offset_line.h), reading and mark
// together are narrower than the bracket's, and its estimate lies in the bracket. Where there is
// one bound only, the estimate must agree with it and the interval must be fair at least.
//
// The slope is the sound line's, else estimated (torque_per_degree.h) over a named span.
[[nodiscard]] FoundTorque found_torque(const record::Measured& measured,
                                       const record::Wrench& wrench, quantity::Percent method_error,
                                       const TestedBolt& bolt = {});

// The power of ten to which an estimate is written in this unit: the place of its uncertainty's
// second digit (JCGM 100:2008 7.2.6, from memory), finer where rounding to it would leave the
// bracket or interval. Not for a bound.
[[nodiscard]] int last_place(const FoundTorque& found, quantity::TorqueUnit unit);

// InputError where the running torque takes the whole of what was found: the mark cannot line up
// below it, and nothing would be left to clamp.
void check_prevailing(const record::Measured& measured, const FoundTorque& found);

}  // namespace finding
