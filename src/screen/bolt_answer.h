#pragma once

#include <string>

#include "fastener/bolt_assessment.h"
#include "quantity/stated_torque.h"
#include "screen/bolt_checks.h"
#include "words/text.h"

namespace screen {

// Which of the two frictions somebody stated; the condition's stand in for the others.
struct FrictionGiven {
  bool thread = false;
  bool head = false;
};

// What was asked, with the torque in the unit it was typed in.
struct BoltPage {
  fastener::BoltQuestion question;
  fastener::BoltAssessment assessment;
  std::optional<quantity::StatedTorque> torque;
  FrictionGiven friction_given;
  BoltChecks checks;
};

// The answers first, one line each: what else was asked (bolt_checks.h), then what the stated
// torque does, or what makes sense where none was. Then geometry, strength and figures, every
// assumption with its source.
[[nodiscard]] std::string bolt_text(const BoltPage& bolt, const words::Page& page);

// {"stress_area_mm2","root_area_mm2","pitch_mm","proof_load_n"|null,"tensile_load_n",
// "preload_n"|null,"proof_share"|null,"plausible_nm"|null,"loosening_nm"|null,"assumptions":[..]}
// and more, among it "answers":[..] and the fields of checks_json; a band is {"low","high"}. Shares
// are ratios. "friction" is null where thread and head differ. Null: the standard gives no proof
// stress, no torque was given, or no friction band is known.
[[nodiscard]] std::string bolt_json(const BoltPage& bolt);

}  // namespace screen
