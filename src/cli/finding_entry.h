#pragma once

#include <functional>
#include <string>

#include "cli/correction.h"
#include "record/address.h"
#include "record/joint.h"
#include "record/measured.h"
#include "record/wrench.h"
#include "terminal/session.h"

namespace cli {

// Which fastener was tested with which wrench, as a person named them.
struct TestedFastener {
  record::Address address;  // of one position
  std::string wrench;
  CorrectionOptions correction = {};
};

// Makes the finding once joint and wrench are looked up; called while the logbook is held.
using MakeFinding = std::function<record::Measured(const logbook::Logbook&, const record::Joint&,
                                                   const record::Wrench&)>;

// Records the finding in a line of its own, durable when this returns, and tells the line and what
// the finding comes to; on stderr, what is odd about it. Refusal where there is no such joint or
// wrench, InputError where the joint does not have the position or the wrench not the settings.
record::Stamp record_finding(const terminal::Session& session, const TestedFastener& tested,
                             const MakeFinding& make);

// A test of the joint's position on the wrench's scale, without readings.
[[nodiscard]] record::Measured test_without_readings(const record::Joint& joint, int position,
                                                     const record::Wrench& wrench);

// InputError where the last setting lies beyond the wrench's scale. A scale has no mark above its
// end, so such a reading is a typing error and not a finding.
void check_on_scale(const record::Measured& measured, const record::Wrench& wrench);

// OptionError where a setting is not on the wrench's scale, or where the running torque leaves
// nothing to find.
void check_finding(const record::Measured& measured, const record::Wrench& wrench);

// Remarks on a setting between two marks of the scale: most often a slip of the pen or of the
// wrench; it is kept, and held against the grade.
void remark_on_marks(const record::Measured& measured, const record::Wrench& wrench,
                     const terminal::Session& session);

}  // namespace cli
