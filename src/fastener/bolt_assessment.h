#pragma once

#include <optional>

#include "fastener/condition.h"
#include "fastener/friction.h"
#include "fastener/grade.h"
#include "fastener/preload_band.h"
#include "fastener/strength.h"
#include "fastener/thread.h"
#include "fastener/torque_range.h"
#include "quantity/percent.h"

namespace fastener {

// What is asked about one bolt under a tightening torque.
struct BoltQuestion {
  Thread thread;
  Grade grade = Grade::Class8_8;
  Condition condition = Condition::AsReceived;
  std::optional<FrictionBand> friction;     // else the condition's (friction.h)
  std::optional<quantity::Length> bearing;  // mean bearing diameter, else the usual one (bearing.h)
  std::optional<quantity::Torque> torque;   // as read on the wrench, running torque included
  std::optional<quantity::Torque> prevailing;  // running torque of a locking feature
};

// Factors at the two ends of a friction band.
struct FactorBand {
  double low = 0.0;
  double high = 0.0;
};

// What one torque makes of the bolt, over the friction band.
struct TightenedBolt {
  PreloadBand preload;
  FactorBand proof_share;  // pull alone over proof
  FactorBand yield_share;  // pull and twist by von Mises over yield; with friction of its own in
                           // thread and head, over all that lies between
  TorqueRange loosening;   // running torque included; below zero runs off by itself
  FactorBand loosening_ratio;  // of the parts of both torques that the preload makes
};

// What a friction band makes of the torque.
struct TorqueAdvice {
  FrictionBand friction;
  TorqueRange plausible;        // plausible_torque.h, running torque added
  TorqueRange for_proof_share;  // kWantedProofShare at either end, running torque added
  quantity::Torque yields_at;   // at the end that takes more, the high one in most cases: above
                                // it the bolt yields whatever its friction
  FactorBand nut_factor;        // K of T = K d F that the band comes to
};

// The share of proof that is usual for joints which are taken apart again. Source: Shigley 9th ed.,
// section 8-9 (Eq. 8-31).
inline constexpr double kWantedProofShare = 0.75;

struct BoltAssessment {
  Strength strength;
  quantity::Force proof_load;  // at the proof stress or what stands in for it (proof_basis)
  quantity::Force yield_load;  // pull alone
  quantity::Force tensile_load;
  quantity::Length bearing;
  std::optional<TorqueAdvice> advice;      // nothing without a friction band (threadlocker)
  std::optional<TightenedBolt> tightened;  // nothing without a torque or a friction band
};

// InputError where the grade does not exist at this size, or where the running torque takes the
// whole torque.
[[nodiscard]] BoltAssessment assess(const BoltQuestion& question);

}  // namespace fastener
