#pragma once

#include <string_view>

#include "audit/audit.h"

namespace audit {

// Puts to each deviation the decision that holds for it: of the decisions on its id the latest that
// was made on just this evidence. Where there is none such, the latest on other evidence, which
// counts no more: the deviation is open again.
void apply_dispositions(const record::Job& job, std::vector<Deviation>& deviations);

// The deviation of this id; nothing where the audit has none such.
[[nodiscard]] const Deviation* deviation_in(const Audit& audit, std::string_view id);

}  // namespace audit
