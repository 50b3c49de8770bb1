#pragma once

#include <optional>

#include "finding/next_setting.h"
#include "finding/survey.h"

namespace finding {

// The fasteners of a joint that share a specification were tightened by one hand on one day, so
// what the others were found at tells where the next one lies. Of the findings of grade A and B
// that are no bound, this position's own earlier one among them:
//
//   start = min(lowest / (1 + 1/12), 0.88 median, (1 - deviation) low limit)
//
// A twelfth is the widest fine step (widest_fine_step), so the lowest sibling itself would have
// been bracketed by the second pull. 0.88 of the median keeps a lone sibling that was itself high
// from starting the next search on the mark: the method itself scatters by 0.9 to 1.1
// (tightened_to.h); this program's own choice. Below the low limit by what the wrench may be off, a
// mark that is there at once is told as low and not as undecided between low and right.
//
// Where this position itself was on or past its mark at once in an earlier test, that bound says
// more than its siblings: two thirds of it, as the advice to start again says (next_setting.h).
//
// What it takes to run the fastener (`test.prevailing`) is exchanged for that of each finding.
// Nothing where no sibling was found.
[[nodiscard]] std::optional<SearchStart> search_start(const JointState& joint,
                                                      const record::Measured& test,
                                                      const record::Wrench& wrench);

}  // namespace finding
