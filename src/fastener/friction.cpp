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

std::optional<FrictionBand> friction_band(Condition condition) {
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

FrictionBand friction_span(Condition condition) {
  const auto own = friction_band(condition);
  return own ? *own : *friction_band(Condition::AsReceived);
}

}  // namespace fastener
