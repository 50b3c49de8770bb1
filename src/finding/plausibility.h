#pragma once

#include <optional>
#include <string>

#include "fastener/condition.h"
#include "fastener/friction.h"
#include "fastener/torque_range.h"
#include "quantity/stated_torque.h"
#include "record/joint.h"
#include "record/specified.h"

namespace finding {

// Whether a bolt can carry a torque, and whether the torque can clamp anything.
enum class Plausibility {
  TooMuch,         // it yields the bolt even at the high end of the friction band
  Above,           // above the plausible band, but the bolt may hold
  Fits,            // in the plausible band (fastener/plausible_torque.h)
  Below,           // below it, as is right for a gasket, a soft part or a short thread
  TooLittle,       // below a tenth of the band's low end: too small to clamp
  TurnOutOfReason  // an angle behind a torque that hardly clamps, or stretches the bolt too far
};

// The limits of one bolt. Nothing is known (see bolt_limits) for a bolt without a strength.
struct BoltLimits {
  std::string bolt;  // "M8 8.8"
  fastener::TorqueRange plausible;
  quantity::Torque yields_at;  // 100 % of yield, pull and twist, at the high end of the friction
  fastener::FrictionBand friction;
  bool friction_known = true;  // else the span from oiled to dry stands in (friction_span)
  // Brings the bolt to proof at a friction of 0.12, for which guideline tables of VDI 2230 are
  // printed most; only there to say in round numbers how far off a torque is.
  quantity::Torque proof_torque;
};

// A tenth of the plausible low end. The plausible band starts at 55 % of proof; a gasketed cover or
// a thread in aluminium may ask for a fifth of that, nothing clamps at a tenth (own choice, no
// source).
inline constexpr double kLeastShareOfPlausible = 0.1;

// Nothing where the size cannot be read, or the grade is not known or does not exist at this size.
// No source gives a friction for threadlocker. What yields the bolt, or clamps nothing, over the
// whole span from oiled to dry is out of reason with adhesive as well, so that span is taken, and
// plausibility_text says so.
[[nodiscard]] std::optional<BoltLimits> bolt_limits(const record::Joint& joint,
                                                    fastener::Condition condition);

[[nodiscard]] Plausibility plausibility_of(quantity::Torque torque, const BoltLimits& limits);

// What is wrong with a torque, for a person, with the unit it was likely meant in: "160 N·m on M8
// 8.8 is 6 times its proof torque; 160 in·lbf = 18.1 N·m would fit. ..." The units tried are N·m,
// ft·lbf, in·lbf and kgf·m. Empty for a torque that fits.
[[nodiscard]] std::string plausibility_text(const quantity::StatedTorque& torque,
                                            const BoltLimits& limits);

// The torque of a specification that is out of the plausible band, the worst there is.
struct Implausible {
  Plausibility plausibility = Plausibility::Fits;
  quantity::StatedTorque torque;  // of an angle, the one it starts from
  std::string says;               // plausibility_text, or what is wrong with the angle
};

// Looks at the highest torque step before any angle step (too much, above) and at the final torque
// (too little, below), and where the length under the head is known at the angles turned behind a
// torque, all together (fastener/turn_plausibility.h). What follows an angle step checks a bolt
// that may yield by design, and a torque before an angle only seats it, so neither is looked at
// from that side. Nothing where all fits or nothing is known.
[[nodiscard]] std::optional<Implausible> implausible(const record::Specified& specified,
                                                     const record::Joint& joint);

// True for what may only be entered on purpose: too much, too little, a turn out of reason.
[[nodiscard]] bool is_refused(Plausibility plausibility);

}  // namespace finding
