#include "fastener/turn_plausibility.h"

#include <algorithm>

#include "fastener/lost_preload.h"
#include "fastener/utilisation.h"

namespace fastener {

using quantity::Angle;
using quantity::Force;

TurnLimits turn_limits(const Thread& thread, const Strength& strength, const FrictionBand& friction,
                       quantity::Length under_head, const PreloadBand& seated) {
  const auto per_degree = lost_preload(thread, under_head, Angle::degrees(1.0));
  const auto turn_to = [](Force wanted, Force had, Force each_degree) {
    return Angle::degrees(std::max(0.0, (wanted - had) / each_degree));
  };
  const auto clamping =
      preload_at_proof_share(thread, strength, quantity::Percent::of_hundred(55.0));
  const auto twisted =
      assembly_preload(thread, strength.yield, friction.high.thread(),
                       quantity::Percent::of_hundred(100.0), quantity::Torque::newton_metres(0.0));
  const auto yields_by = turn_to(load_at(strength.yield, thread), seated.low, per_degree.low);
  const auto stretched = assumed_stretch(thread, under_head).longest;
  return {turn_to(clamping, seated.high, per_degree.high),
          turn_to(twisted, seated.high, per_degree.high), yields_by,
          yields_by + Angle::degrees(360.0 * kMostStretch * (stretched / thread.pitch()))};
}

TurnVerdict judge_turn(const TurnLimits& limits, Angle turn) {
  if (turn < limits.clamps) return TurnVerdict::TooLittle;
  if (turn <= limits.yields_from) return TurnVerdict::Elastic;
  if (turn <= limits.yields_by) return TurnVerdict::MayYield;
  return turn <= limits.most ? TurnVerdict::Yields : TurnVerdict::TooMuch;
}

}  // namespace fastener
