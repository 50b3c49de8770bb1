#include "fastener/bolt_assessment.h"

#include <fmt/format.h>

#include <algorithm>

#include "failure/failure.h"
#include "fastener/bearing.h"
#include "fastener/plausible_torque.h"
#include "fastener/thread_text.h"
#include "fastener/tightening.h"
#include "fastener/utilisation.h"
#include "quantity/number_text.h"

namespace fastener {
namespace {

using failure::InputError;
using quantity::Length;
using quantity::Percent;
using quantity::Torque;

Torque running_torque(const BoltQuestion& question) {
  return question.prevailing.value_or(Torque::newton_metres(0.0));
}

FactorBand ordered(double one, double other) {
  return {std::min(one, other), std::max(one, other)};
}

// With friction of its own in the thread the low end may take more: what twists the bolt less lets
// it be pulled further.
Torque yields_whatever(const Thread& thread, const Strength& strength, const FrictionBand& friction,
                       Length bearing, Torque running) {
  const auto at = [&](const Friction& end) {
    return torque_for_yield_share(thread, bearing, end, strength, Percent::of_hundred(100.0),
                                  running);
  };
  return std::max({at(friction.low), at(friction.high),
                   at(Friction::of(friction.low.thread(), friction.high.head()))});
}

TorqueAdvice advice_for(const BoltQuestion& question, const Strength& strength,
                        const FrictionBand& friction, Length bearing) {
  const auto& thread = question.thread;
  const auto& [low, high, origin] = friction;
  const auto running = running_torque(question);
  const auto share = Percent::from_ratio(kWantedProofShare);
  return {friction,
          plausible_torque(thread, strength, friction, bearing, running),
          {torque_for_proof_share(thread, bearing, low, strength, share) + running,
           torque_for_proof_share(thread, bearing, high, strength, share) + running},
          yields_whatever(thread, strength, friction, bearing, running),
          {tightening_arm(thread, bearing, low) / thread.diameter(),
           tightening_arm(thread, bearing, high) / thread.diameter()}};
}

// Friction of its own in thread and head spans a rectangle, one for both a line along its diagonal.
// The share falls with the head's friction. Along the thread's, pull falls and twist rises: the
// square of the share is a parabola in 1/arm, so that the most lies at an end and the least at one
// or between (searched by thirds).
FactorBand yield_shares(Torque clamping, const BoltQuestion& question, const Strength& strength,
                        const FrictionBand& friction, Length bearing) {
  const auto& thread = question.thread;
  const auto& [low, high, origin] = friction;
  const auto share = [&](double of_thread, double of_head) {
    const auto preload =
        preload_from_torque(thread, bearing, Friction::of(of_thread, of_head), clamping);
    return share_of_yield(thread, strength, preload, of_thread, running_torque(question)).ratio();
  };
  const double both_low = share(low.thread(), low.head());
  const double both_high = share(high.thread(), high.head());
  const bool is_one_span = low.thread() == low.head() && high.thread() == high.head();
  if (is_one_span) return ordered(both_low, both_high);
  double from = low.thread();
  double to = high.thread();
  for (int i = 0; i < 100; ++i) {
    const double third = (to - from) / 3.0;
    if (share(from + third, high.head()) <= share(to - third, high.head())) {
      to -= third;
    } else {
      from += third;
    }
  }
  return {share((from + to) / 2.0, high.head()),
          std::max(both_low, share(high.thread(), low.head()))};
}

TightenedBolt tightened_by(Torque torque, const BoltQuestion& question, const Strength& strength,
                           const FrictionBand& friction, Length bearing) {
  const auto& thread = question.thread;
  const auto running = running_torque(question);
  if (torque <= running) {
    throw InputError(fmt::format(
        "a running torque of {} N·m takes the whole torque of {} N·m; nothing is left to clamp",
        quantity::write_rounded(running.in_newton_metres()),
        quantity::write_rounded(torque.in_newton_metres())));
  }
  const auto clamping = torque - running;
  const auto& [low, high, origin] = friction;
  const auto preload = preload_band(thread, bearing, friction, clamping);
  const auto of_proof = [&](quantity::Force force) {
    return share_of_proof(thread, strength, force).ratio();
  };
  return {preload,
          {of_proof(preload.low), of_proof(preload.high)},
          yield_shares(clamping, question, strength, friction, bearing),
          {loosening_torque(thread, bearing, low, preload.high) + running,
           loosening_torque(thread, bearing, high, preload.low) + running},
          {loosening_ratio(thread, bearing, low), loosening_ratio(thread, bearing, high)}};
}

}  // namespace

BoltAssessment assess(const BoltQuestion& question) {
  const auto& thread = question.thread;
  const auto strength = strength_of(question.grade, thread);
  if (!strength) {
    throw InputError(fmt::format("there is no {} at {}; known are {}", name_of(question.grade),
                                 write_exact(thread), known_grades()));
  }
  BoltAssessment result{*strength,
                        load_at(proof_basis(*strength).stress, thread),
                        load_at(strength->yield, thread),
                        load_at(strength->tensile, thread),
                        question.bearing.value_or(usual_bearing_diameter(thread)),
                        std::nullopt,
                        std::nullopt};
  const auto friction = question.friction
                            ? question.friction
                            : friction_band(question.condition, metal_of(question.grade));
  if (!friction) return result;
  result.advice = advice_for(question, *strength, *friction, result.bearing);
  if (question.torque) {
    result.tightened =
        tightened_by(*question.torque, question, *strength, *friction, result.bearing);
  }
  return result;
}

}  // namespace fastener
