#pragma once

#include <string>

#include "audit/audit.h"

namespace act {

// The deviation of this id, in any case of letters. Refusal, with the nearest known one, where the
// audit names none.
[[nodiscard]] const audit::Deviation& deviation_or_refuse(const audit::Audit& audit,
                                                          const std::string& id);

}  // namespace act
