#pragma once

#include <string_view>

#include "record/disposition.h"

namespace audit {

// Why a deviation of this rule cannot be decided so, since it would change nothing or ask for what
// cannot be done, and the way on; empty where it can.
[[nodiscard]] std::string_view why_not(std::string_view rule, record::Decision decision);

}  // namespace audit
