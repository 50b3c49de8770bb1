#include "fastener/friction.h"

#include <fmt/format.h>

#include "failure/failure.h"

namespace fastener {

Friction Friction::of(double thread, double head) {
  for (const double coefficient : {thread, head}) {
    if (!(coefficient > 0.0 && coefficient < 1.0)) {
      throw failure::InputError(fmt::format(
          "a friction coefficient of {} cannot be; expected above 0 and below 1, such as 0.14",
          coefficient));
    }
  }
  return {thread, head};
}

namespace {

std::optional<FrictionBand> steel_band(Condition condition) {
  switch (condition) {
    case Condition::Dry:
      return FrictionBand::same(0.14, 0.24,
                                {"VDI 2230 Part 1 friction class C; the same span for zinc plate "
                                 "in a published worked example",
                                 HowKnown::Seen});
    case Condition::Oiled:
      return FrictionBand::same(0.08, 0.16,
                                {"VDI 2230 Part 1 friction class B", HowKnown::FromMemory});
    case Condition::AntiSeize:
      return FrictionBand::same(0.04, 0.16,
                                {"VDI 2230 Part 1 friction classes A and B together: solid "
                                 "lubricants and pastes",
                                 HowKnown::FromMemory});
    case Condition::AsReceived:
      return FrictionBand::same(0.08, 0.24,
                                {"VDI 2230 Part 1 friction classes B and C together: lightly oiled "
                                 "to plated",
                                 HowKnown::FromMemory});
    case Condition::Threadlocker:
      break;
  }
  return std::nullopt;
}

// Dry from the published nut factors, which T = K d F turns into 0.24 to 0.41 on M10; the others
// from the classes that VDI 2230 gives austenitic steel.
std::optional<FrictionBand> stainless_band(Condition condition) {
  switch (condition) {
    case Condition::Dry:
      return FrictionBand::same(0.24, 0.41,
                                {"nut factors 0.30 to 0.50 of stainless on stainless in a "
                                 "supplier's list; guideline tables take 0.3",
                                 HowKnown::Seen});
    case Condition::Oiled:
      return FrictionBand::same(
          0.20, 0.35,
          {"VDI 2230 Part 1 friction class D, austenitic steel with oil", HowKnown::FromMemory});
    case Condition::AntiSeize:
      return FrictionBand::same(0.10, 0.24,
                                {"paste brings it to 0.1 after a supplier's table; VDI 2230 Part 1 "
                                 "friction class C for austenitic steel with paste",
                                 HowKnown::FromMemory});
    case Condition::AsReceived:
      return FrictionBand::same(0.14, 0.41,
                                {"from VDI 2230 Part 1 friction class C, waxed, to the nut factors "
                                 "of dry stainless in a supplier's list",
                                 HowKnown::FromMemory});
    case Condition::Threadlocker:
      break;
  }
  return std::nullopt;
}

}  // namespace

std::optional<FrictionBand> friction_band(Condition condition, BoltMetal metal) {
  return metal == BoltMetal::Stainless ? stainless_band(condition) : steel_band(condition);
}

FrictionBand friction_span(Condition condition, BoltMetal metal) {
  const auto own = friction_band(condition, metal);
  return own ? *own : *friction_band(Condition::AsReceived, metal);
}

}  // namespace fastener
