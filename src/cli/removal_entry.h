#pragma once

#include "cli/correction.h"
#include "record/removal.h"
#include "terminal/session.h"

namespace cli {

// Records fasteners as they come out in a line of its own, durable when this returns, and tells the
// line. Refusal where a hold point stands before the joint, where there is no such joint or one of
// the positions is out already; InputError where the joint does not have them.
record::Stamp record_removal(const terminal::Session& session, record::Removal removal,
                             const CorrectionOptions& correction = {});

}  // namespace cli
