#pragma once

#include <string_view>

#include "audit/audit.h"

namespace audit {

// Puts to each part of a deviation the decision that holds for it: of the decisions about it the
// latest that was made on just this evidence. Where there is none such, the latest on other
// evidence, which counts no more: the part is open again, and with it the deviation. A decision
// from before schema step 10 holds where its evidence is as it was made then.
void apply_dispositions(const record::Job& job, Deviations& deviations);

// The deviation of this id, or that with a part of this id ("found-low:J08/05" of "found-low:J08");
// nothing where the audit has none such.
[[nodiscard]] const Deviation* deviation_in(const Audit& audit, std::string_view id);

// The part of it that has this id alone; nothing where the id is that of the whole.
[[nodiscard]] const Part* part_in(const Deviation& deviation, std::string_view id);

}  // namespace audit
