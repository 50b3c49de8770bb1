#pragma once

#include <string>

#include "audit/audit.h"
#include "report/text.h"

namespace report {

// The deviations one by one, holds first, each with its likeliest cause or with all of them; and a
// last line that says whether reassembly may start.
[[nodiscard]] std::string audit_text(const audit::Audit& audit, bool all_causes, const Page& page);

// {"ready":bool,"deviations":[{"id","level","rule","joint","position"|null,"says","do",
// "causes":[{"weight","cause","fact"}]}]}
[[nodiscard]] std::string audit_json(const audit::Audit& audit);

}  // namespace report
