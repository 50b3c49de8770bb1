#include "fastener/nut_factor.h"

#include <fmt/format.h>

#include "failure/failure.h"

namespace fastener {
namespace {

using failure::InputError;
using quantity::Force;
using quantity::Length;
using quantity::Torque;

// K d, the arm at which the preload works.
Length arm(double nut_factor, Length diameter) {
  if (!(nut_factor > 0.0 && nut_factor < 1.0)) {
    throw InputError(fmt::format(
        "a nut factor of {} cannot be; expected above 0 and below 1, such as 0.2", nut_factor));
  }
  if (diameter.in_millimetres() <= 0.0) throw InputError("expected a diameter above zero");
  return diameter * nut_factor;
}

}  // namespace

Torque torque_by_nut_factor(double nut_factor, Length diameter, Force preload) {
  return preload * arm(nut_factor, diameter);
}

Force preload_by_nut_factor(double nut_factor, Length diameter, Torque torque) {
  return Force::newtons(torque / (Force::newtons(1.0) * arm(nut_factor, diameter)));
}

double nut_factor_from_test(Torque torque, Length diameter, Force preload) {
  if (preload.in_newtons() <= 0.0) throw InputError("expected a measured preload above zero");
  if (diameter.in_millimetres() <= 0.0) throw InputError("expected a diameter above zero");
  return torque / (preload * diameter);
}

std::optional<NutFactorBand> nut_factor_band(Condition condition) {
  switch (condition) {
    case Condition::Dry:
      return NutFactorBand{
          0.18,
          0.20,
          0.30,
          {"dry steel 0.18 to 0.27 in a supplier's nut factor list; 0.30 for black finish in "
           "Shigley 9th ed. Table 8-15; 0.20 in NASA TM-106943",
           HowKnown::Seen}};
    case Condition::Oiled:
      return NutFactorBand{
          0.10,
          0.15,
          0.26,
          {"machine oil 0.10 to 0.26 in a supplier's nut factor list; 0.15 as Machine Design "
           "Nov. 1977 uses it",
           HowKnown::Seen}};
    case Condition::AntiSeize:
      return NutFactorBand{0.08,
                           0.13,
                           0.23,
                           {"copper based paste, Bickford, Introduction to the Design and Behavior "
                            "of Bolted Joints, nut factor table",
                            HowKnown::FromMemory}};
    case Condition::AsReceived:
      return NutFactorBand{
          0.15,
          0.20,
          0.35,
          {"phosphate and oil from 0.15, zinc up to 0.35 in a supplier's nut factor list; 0.20 "
           "for zinc in Shigley 9th ed. Table 8-15",
           HowKnown::Seen}};
    case Condition::Threadlocker:
      break;
  }
  return std::nullopt;
}

}  // namespace fastener
