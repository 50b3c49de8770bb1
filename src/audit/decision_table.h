#pragma once

#include <string_view>

#include "audit/deviation.h"

namespace audit {

// Why this deviation cannot be decided so, since it would change nothing or ask for what cannot be
// done, and the way on; empty where it can. Its rule tells, and its kind where the rule finds
// matters that want different work.
[[nodiscard]] std::string_view why_not(const Deviation& deviation, record::Decision decision);

}  // namespace audit
