#pragma once

#include <vector>

#include "audit/audit.h"
#include "progress/open_list.h"
#include "words/next_step.h"

namespace words {

// What is typed to get past a deviation that stands in the way: the deed that settles it where
// there is one ("renew J06 --arrived"), else the decision, with what there is to decide between as
// `why`. Passes lead to
// the joint that has to be finished first. Capitals stand for what only the person knows.
[[nodiscard]] NextStep step_to_settle(const audit::Deviation& deviation,
                                      const progress::Reassembly& reassembly,
                                      const std::vector<progress::OpenPoint>& open);

// What is typed to do what was decided, or to say that it is done.
[[nodiscard]] NextStep step_to_do(const progress::DecidedWork& work, const audit::Audit& audit,
                                  const progress::Reassembly& reassembly,
                                  const std::vector<progress::OpenPoint>& open);

}  // namespace words
