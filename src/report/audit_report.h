#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "audit/audit.h"
#include "report/text.h"

namespace report {

// "J06/03", or "J06" for the joint as a whole.
[[nodiscard]] std::string place_text(const audit::Deviation& deviation);

// "use-as-is by KB with LM, 2025-05-20 08:00 (line 110): reason".
[[nodiscard]] std::string decision_in_words(const record::Entry<record::Disposition>& entry);

// Why a deviation that was settled is open again: "line 45 came after the decision; it was judged
// on "found 52 N·m ..."".
[[nodiscard]] std::string what_changed(const audit::Deviation& deviation);

// How much of an audit is shown.
struct AuditShows {
  bool settled_too = false;  // the settled ones as well, with decision, reason, who and when
  bool all_causes = false;   // all causes, not the likeliest alone
};

// The open deviations one by one, holds first, each with the id to settle it by and its likeliest
// cause, and a last line that says whether reassembly may start.
[[nodiscard]] std::string audit_text(const audit::Audit& audit, const AuditShows& shows,
                                     const Page& page);

// "likely: the gasket has relaxed (it holds "cover gasket")".
[[nodiscard]] std::string cause_in_words(const audit::Cause& cause);

// One deviation as audit_text shows it.
[[nodiscard]] std::string deviation_text(const audit::Deviation& deviation, bool all_causes,
                                         const Page& page);

// {"ready":bool,"deviations":[{"id","level","rule","joint","position"|null,"says","do",
// "settled":{"as","why","by","with"|null,"at","line","judged_on"}|null,
// "settled_before": the same|null,"lines_since":[line],"causes":[{"weight","cause","fact"}]}]}: all
// of them, settled or not. `settled_before` is the last decision where the evidence has changed
// since, `lines_since` what it rests on now and was not there then.
[[nodiscard]] std::string audit_json(const audit::Audit& audit);
[[nodiscard]] nlohmann::ordered_json deviation_json(const audit::Deviation& deviation);

}  // namespace report
