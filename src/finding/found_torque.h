#pragma once

#include <optional>

#include "quantity/percent.h"
#include "quantity/torque.h"
#include "record/measured.h"
#include "record/wrench.h"

namespace finding {

// How the readings of a found-torque test give a torque.
enum class Basis {
  Bracket,     // short at one setting, on or past at the next
  UpperBound,  // on or past at the first setting already: the torque is there or below
  LowerBound,  // never on or past: the torque is above the last setting
};

// The parts of the standard uncertainty u, each one standard deviation; u² is their sum of squares.
struct UncertaintyBudget {
  quantity::Torque bracket = quantity::Torque::newton_metres(0);  // half-width / √3
  quantity::Torque wrench = quantity::Torque::newton_metres(0);  // permissible deviation · T / √3
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
  std::optional<quantity::Torque> low;   // of the bracket; absent for an upper bound
  std::optional<quantity::Torque> high;  // of the bracket; absent for a lower bound
  UncertaintyBudget budget;              // at `best`, or at the bound

  // What the budget is about: the estimate, or the one bound there is.
  [[nodiscard]] quantity::Torque reference() const;
};

// The bracket. With s(k) the first setting at which the mark stood on or past the line and s(k-1)
// the last before it:
//   on at s(k)    best s(k), half-width half of the last step
//   past at s(k)  best in the middle of s(k-1) and s(k), half-width half of the step
// A rectangle of half-width h has the standard uncertainty h/√3 (JCGM 100:2008 4.3.7, from memory);
// the wrench's permissible deviation is taken as such a rectangle, too. `method_error` is the
// logbook's setting. The readings must be sound (record::check_readings).
[[nodiscard]] FoundTorque found_torque(const record::Measured& measured,
                                       const record::Wrench& wrench,
                                       quantity::Percent method_error);

}  // namespace finding
