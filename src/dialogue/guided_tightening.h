#pragma once

#include <optional>
#include <string>

#include "plan/wrench_choice.h"
#include "terminal/session.h"

namespace dialogue {

struct Guide {
  std::optional<std::string> joint;  // else the whole job
  std::optional<plan::ThroughAdapter> adapter;
};

// Leads from step to step of the plan with single keys. Each answer is in the logbook before the
// next step is shown, so whatever ends it, the next call goes on at the same step. Refusal where a
// hold point stands before the next step, where what covers it is on, or it would cover a joint
// that is not finished; what was done before it is recorded. Before a joint that covers others it
// asks for their second check and final stripes, which cannot be reached after it, before a final
// value that waits whether its condition is met.
int guide_tightening(const Guide& guide, const terminal::Session& session);

}  // namespace dialogue
