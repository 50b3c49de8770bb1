#pragma once

#include "record/measured.h"
#include "record/specification.h"

namespace finding {

// Whether the test answers the check of US Army TB 43-0218 (seen): marked, backed off and tightened
// to the specification with a steady pull, the marks were in line, "torque was right". So it is
// where the mark was on the line at the first setting, and that setting, at the fastener, lies
// within the limits. A bound for the torque all the same: how much less would have brought it there
// is not known.
[[nodiscard]] bool in_line_at_specification(const record::Measured& measured,
                                            const record::ToleranceWindow& window);

}  // namespace finding
