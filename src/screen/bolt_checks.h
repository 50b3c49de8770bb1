#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "fastener/bolt_assessment.h"
#include "fastener/preload_by_loosening.h"
#include "fastener/sample.h"
#include "fastener/turn_plausibility.h"
#include "finding/part_check.h"
#include "quantity/stated_torque.h"
#include "words/text.h"

namespace screen {

// Is an angle plausible for this length?
struct TurnCheck {
  quantity::Angle turn;
  quantity::Length under_head;
  fastener::TurnLimits limits;
  fastener::TurnVerdict verdict = fastener::TurnVerdict::Elastic;
  std::optional<quantity::StatedTorque> seated_at;
};

// What preload was there, by the torque that loosens it?
struct LoosenedCheck {
  fastener::PreloadByLoosening found;
  quantity::StatedTorque on;
  quantity::StatedTorque off;
  double nut_factor = 0.0;  // K = T/(d F) that the two come to
};

// What is K on this bolt, by measured loads or stretches?
struct OwnNutFactor {
  fastener::Sample factors;
  // By a stretch, else by a load cell or the like: the mean K at the two ends of what section and
  // stretched length may be.
  std::optional<fastener::FactorBand> by_stretch;
  quantity::Torque for_proof_share;            // with the mean K, 75 % of proof
  std::optional<quantity::Percent> yardstick;  // scatter that is usual for the condition
};

// What else was asked about a bolt; each is answered in one line, and on request of the options.
struct BoltChecks {
  std::optional<finding::EngagementCheck> engagement;
  std::optional<finding::SeatCheck> seat;
  std::optional<TurnCheck> turn;
  std::optional<LoosenedCheck> loosened;
  std::optional<OwnNutFactor> own_nut_factor;
};

// The answers, one sentence each, in the order of the struct.
[[nodiscard]] std::vector<std::string> answers_of(const BoltChecks& checks);

// The figures behind the answers, a table each under a short heading.
[[nodiscard]] std::string check_details(const BoltChecks& checks,
                                        const fastener::BoltAssessment& bolt);

// What the checks rest on, with sources.
[[nodiscard]] std::vector<std::string> assumptions_of(const BoltChecks& checks);

// {"engagement"|null,"seat"|null,"turn"|null,"loosened"|null,"own_nut_factor"|null}: lengths in mm,
// forces in N, stresses in MPa, angles in degrees.
[[nodiscard]] nlohmann::ordered_json checks_json(const BoltChecks& checks);

}  // namespace screen
