#pragma once

#include <string>

#include "audit/audit.h"
#include "report/text.h"

namespace report {

// "J06/03", or "J06" for the joint as a whole.
[[nodiscard]] std::string place_text(const audit::Deviation& deviation);

// The deviations one by one, holds first, and a last line that says whether reassembly may start.
[[nodiscard]] std::string audit_text(const audit::Audit& audit, const Page& page);

// {"ready":bool,"deviations":[{"id","level","rule","joint","position"|null,"says","do"}]}
[[nodiscard]] std::string audit_json(const audit::Audit& audit);

}  // namespace report
