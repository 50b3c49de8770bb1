#pragma once

#include <vector>

#include "audit/audit.h"

namespace audit {

// Adds to every deviation about a found torque why it may be so: what its siblings, the ratio to
// the specification, the feel at breaking loose, the condition, the wrench and the fastener itself
// say for each cause. A cause for which the logbook holds no fact is not named, and none is called
// certain. The likeliest first; among equals the one that rests on this very fastener.
void explain(const Case& subject, std::vector<Deviation>& deviations);

}  // namespace audit
