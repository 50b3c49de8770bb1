#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "audit/audit.h"
#include "words/text.h"

namespace screen {

// How much of an audit is shown.
struct AuditShows {
  bool settled_too = false;  // the settled ones as well, with decision, reason, who and when
  bool all_causes = false;   // all causes, not the likeliest alone
  // The same with no list cut, as it is typed; empty where none is to be.
  std::string_view whole = {};
};

// In its first line whether it is in order; then the open deviations one by one, and those decided
// and not done, holds first, each with the id to settle it by and its likeliest cause; what else
// was decided and is not done; and a last line that says whether reassembly may start. The list is
// cut, holds last.
[[nodiscard]] std::string audit_text(const audit::Audit& audit, const AuditShows& shows,
                                     const words::Page& page);

// Whether it is in order, and the ids of the open holds and of what is to be done.
[[nodiscard]] std::string audit_in_short(const audit::Audit& audit, const words::Page& page);

// One deviation of the audit as audit_text shows it.
[[nodiscard]] std::string deviation_text(const audit::Audit& audit,
                                         const audit::Deviation& deviation, bool all_causes,
                                         const words::Page& page);

// {"ready":bool,"in_order":bool,"deviations":[{"id","level","rule","joint","position"|null,"says",
// "do",
// "settled":{"as","why","by","with"|null,"at","line","judged_on","done"|null}|null,
// "settled_before": the same|null,"lines_since":[line],"positions":[int],"done":bool|null,
// "parts":[{"id","position"|null,"settled","settled_before"}],
// "causes":[{"weight","cause","fact"}]}],
// "to_do":[{"deviation","joint","as","positions":[int],"line"}]}: all of them, settled or not.
// `ready` where no hold is open, `in_order` where besides all that was decided is done.
// `position` is of one about a single position, `positions` all it names. `settled` where every
// part is. `settled_before` is the last decision where the evidence has changed since,
// `lines_since` what it rests on now and was not there then, what did the decided work apart.
// `done` is null while it is open; `to_do` is what was decided and is not done.
[[nodiscard]] std::string audit_json(const audit::Audit& audit);
[[nodiscard]] nlohmann::ordered_json deviation_json(const audit::Audit& audit,
                                                    const audit::Deviation& deviation);
[[nodiscard]] nlohmann::ordered_json to_do_json(const audit::Audit& audit);

}  // namespace screen
