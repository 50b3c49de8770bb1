#include "finding/plausibility.h"

#include <fmt/format.h>

#include <array>
#include <variant>
#include <vector>

#include "fastener/bearing.h"
#include "fastener/bolt_assessment.h"
#include "fastener/grade.h"
#include "fastener/thread_text.h"
#include "fastener/turn_plausibility.h"
#include "fastener/utilisation.h"
#include "finding/known_bolt.h"
#include "quantity/number_text.h"

namespace finding {
namespace {

using quantity::StatedTorque;
using quantity::Torque;
using quantity::TorqueUnit;

constexpr double kTableFriction = 0.12;

// The thread as people say it: a coarse metric thread without its pitch.
std::string spoken(const fastener::Thread& thread) {
  auto name = fastener::write_exact(thread);
  if (thread.series() == fastener::ThreadSeries::MetricCoarse) {
    const auto pitch = name.find('x');
    const auto hand = name.find("-LH");
    name.erase(pitch, hand == std::string::npos ? hand : hand - pitch);
  }
  return name;
}

std::string rounded(const StatedTorque& torque) {
  return fmt::format("{} {}", quantity::write_rounded(torque.value),
                     quantity::name_of(torque.unit));
}

// The same number in the other units that are confused with its own, where that fits the bolt; else
// nothing.
std::string likely_slip(const StatedTorque& torque, const BoltLimits& limits) {
  constexpr std::array kConfused = {TorqueUnit::NewtonMetre, TorqueUnit::FootPoundForce,
                                    TorqueUnit::InchPoundForce, TorqueUnit::KilogramForceMetre};
  std::string fits;
  for (const auto unit : kConfused) {
    const StatedTorque meant{torque.value, unit};
    if (unit == torque.unit || plausibility_of(meant.torque(), limits) != Plausibility::Fits) {
      continue;
    }
    fits += (fits.empty() ? "" : " or ") + rounded(meant);
    if (unit != TorqueUnit::NewtonMetre) {
      fits +=
          fmt::format(" = {} N·m", quantity::write_rounded(meant.torque().in_newton_metres(), 3));
    }
  }
  return fits.empty() ? fits : fits + " would fit";
}

std::string times(double ratio) {
  return ratio < 3.0 ? fmt::format("{:.2g}", ratio) : fmt::format("{:.0f}", ratio);
}

// The highest torque that a procedure reaches before it goes on by angle.
std::optional<StatedTorque> highest_before_angle(const record::Specification& procedure) {
  std::optional<StatedTorque> highest;
  bool by_angle = false;  // new bolts start afresh
  for (const auto& step : procedure.steps) {
    if (std::holds_alternative<record::AngleStep>(step)) by_angle = true;
    if (std::holds_alternative<record::RenewStep>(step)) by_angle = false;
    const auto* torque = std::get_if<record::TorqueStep>(&step);
    if (torque == nullptr || by_angle) continue;
    const StatedTorque stated{torque->target.value, torque->target.unit};
    if (!highest || stated.torque() > highest->torque()) highest = stated;
  }
  return highest;
}

// Why a torque is out of the plausible band; empty where it is not.
std::string objection(const StatedTorque& torque, const BoltLimits& limits) {
  const auto stated = rounded(torque);
  const auto band =
      fmt::format("{} {}",
                  quantity::write_span(quantity::in_unit(limits.plausible.low, torque.unit),
                                       quantity::in_unit(limits.plausible.high, torque.unit)),
                  quantity::name_of(torque.unit));
  const auto slip = likely_slip(torque, limits);
  const auto or_slip = slip.empty() ? slip : "; " + slip;
  const auto what_to_check = slip.empty() ? "check the size, the grade and the number" : slip;
  const double of_proof = torque.torque() / limits.proof_torque;
  switch (plausibility_of(torque.torque(), limits)) {
    case Plausibility::TooMuch:
      return fmt::format(
          "{} on {} is {} times its proof torque; {}. The bolt yields at {} even with a friction "
          "of {}",
          stated, limits.bolt, times(of_proof), what_to_check,
          quantity::write_rounded(limits.yields_at, torque.unit),
          quantity::write_rounded(limits.friction.high.thread()));
    case Plausibility::TooLittle:
      return fmt::format(
          "{} on {} clamps nothing, it is {:.2g} % of its proof torque; {}. "
          "Plausible is {}",
          stated, limits.bolt, 100.0 * of_proof, what_to_check, band);
    case Plausibility::Above:
      return fmt::format("{} on {} is above the plausible {}; the bolt may hold it, check it{}",
                         stated, limits.bolt, band, or_slip);
    case Plausibility::Below:
      return fmt::format(
          "{} on {} is below the plausible {}; right for a gasket, a soft part or a short thread, "
          "else check it{}",
          stated, limits.bolt, band, or_slip);
    case Plausibility::Fits:
    case Plausibility::TurnOutOfReason:  // of an angle, never of a torque
      break;
  }
  return {};
}

// A torque and the angles that follow it one after another.
struct TurnedFrom {
  StatedTorque torque;
  quantity::Angle turned = quantity::Angle::degrees(0.0);
};

std::vector<TurnedFrom> turns_of(const record::Specification& procedure) {
  std::vector<TurnedFrom> turns;
  for (const auto& step : procedure.steps) {
    if (const auto* torque = std::get_if<record::TorqueStep>(&step)) {
      turns.push_back({{torque->target.value, torque->target.unit}});
    } else if (const auto* angle = std::get_if<record::AngleStep>(&step)) {
      turns.back().turned = turns.back().turned + angle->turn;
    }
  }
  std::erase_if(turns, [](const TurnedFrom& turn) { return turn.turned.in_degrees() == 0.0; });
  return turns;
}

// Why an angle behind a torque is out of reason on a bolt of this length; empty where it is not.
std::string objection_to_turn(const TurnedFrom& turn, const KnownBolt& bolt,
                              quantity::Length under_head, const fastener::FrictionBand& friction) {
  const auto seated = fastener::preload_band(
      bolt.thread, fastener::usual_bearing_diameter(bolt.thread), friction, turn.torque.torque());
  const auto limits =
      fastener::turn_limits(bolt.thread, bolt.strength, friction, under_head, seated);
  const auto asked =
      fmt::format("{:g}° after {} on {} with {} mm under the head", turn.turned.in_degrees(),
                  rounded(turn.torque), spoken(bolt.thread),
                  quantity::write_rounded(under_head.in_millimetres()));
  switch (fastener::judge_turn(limits, turn.turned)) {
    case fastener::TurnVerdict::TooMuch:
      return fmt::format(
          "{} stretches it further than it should bear, {:.0f}° at most; check the "
          "angle and the length",
          asked, limits.most.in_degrees());
    case fastener::TurnVerdict::TooLittle:
      return fmt::format("{} hardly clamps, {:.0f}° at least; check the angle and the length",
                         asked, limits.clamps.in_degrees());
    case fastener::TurnVerdict::Elastic:
    case fastener::TurnVerdict::MayYield:
    case fastener::TurnVerdict::Yields:
      break;
  }
  return {};
}

std::optional<Implausible> implausible_turn(const record::Specified& specified,
                                            const record::Joint& joint) {
  const auto bolt = known_bolt(joint);
  if (!bolt || !joint.length) return std::nullopt;
  const auto friction =
      fastener::friction_span(specified.condition, fastener::metal_of(bolt->grade));
  for (const auto& turn : turns_of(specified.procedure)) {
    auto says = objection_to_turn(turn, *bolt, *joint.length, friction);
    if (says.empty()) continue;
    return Implausible{Plausibility::TurnOutOfReason, turn.torque, std::move(says)};
  }
  return std::nullopt;
}

}  // namespace

std::optional<BoltLimits> bolt_limits(const record::Joint& joint, fastener::Condition condition) {
  const auto known = known_bolt(joint);
  if (!known) return std::nullopt;
  const auto metal = fastener::metal_of(known->grade);
  const auto bolt = fastener::assess({known->thread, known->grade, condition,
                                      fastener::friction_span(condition, metal), std::nullopt,
                                      std::nullopt, std::nullopt});
  return BoltLimits{fmt::format("{} {}", spoken(known->thread), fastener::name_of(known->grade)),
                    bolt.advice->plausible,
                    bolt.advice->yields_at,
                    bolt.advice->friction,
                    fastener::friction_band(condition, metal).has_value(),
                    fastener::torque_for_proof_share(
                        known->thread, bolt.bearing, fastener::Friction::same(kTableFriction),
                        bolt.strength, quantity::Percent::of_hundred(100.0))};
}

Plausibility plausibility_of(Torque torque, const BoltLimits& limits) {
  if (torque > limits.yields_at) return Plausibility::TooMuch;
  if (torque > limits.plausible.high) return Plausibility::Above;
  if (torque < limits.plausible.low * kLeastShareOfPlausible) return Plausibility::TooLittle;
  if (torque < limits.plausible.low) return Plausibility::Below;
  return Plausibility::Fits;
}

std::string plausibility_text(const StatedTorque& torque, const BoltLimits& limits) {
  auto text = objection(torque, limits);
  if (!text.empty() && !limits.friction_known) {
    text += fmt::format(
        " (no friction is known for threadlocker: judged over the span from oiled to dry, {} to "
        "{})",
        quantity::write_rounded(limits.friction.low.thread()),
        quantity::write_rounded(limits.friction.high.thread()));
  }
  return text;
}

std::optional<Implausible> implausible(const record::Specified& specified,
                                       const record::Joint& joint) {
  const auto limits = bolt_limits(joint, specified.condition);
  if (!limits) return std::nullopt;
  const auto found = [&](Plausibility plausibility, const StatedTorque& torque) {
    return Implausible{plausibility, torque, plausibility_text(torque, *limits)};
  };
  if (auto turn = implausible_turn(specified, joint)) return turn;
  std::optional<Implausible> above;
  if (const auto highest = highest_before_angle(specified.procedure)) {
    const auto plausibility = plausibility_of(highest->torque(), *limits);
    if (plausibility == Plausibility::TooMuch) return found(plausibility, *highest);
    if (plausibility == Plausibility::Above) above = found(plausibility, *highest);
  }
  if (const auto target = record::final_torque(specified.procedure)) {
    const StatedTorque last{target->value, target->unit};
    const auto plausibility = plausibility_of(last.torque(), *limits);
    if (plausibility == Plausibility::TooLittle ||
        (plausibility == Plausibility::Below && !above)) {
      return found(plausibility, last);
    }
  }
  return above;
}

bool is_refused(Plausibility plausibility) {
  return plausibility == Plausibility::TooMuch || plausibility == Plausibility::TooLittle ||
         plausibility == Plausibility::TurnOutOfReason;
}

}  // namespace finding
