#pragma once

#include <string>
#include <vector>

#include "audit/audit.h"

namespace words {

// "; 6 checks not settled: boltwitness audit": what nobody has decided of a job that is finished
// all the same; empty where nothing is. Looks that fall due again are counted by themselves.
[[nodiscard]] std::string left_to_read(const audit::Audit& audit);

// "2 holds open", "1 check to settle": what has to be settled before the job is finished, as every
// screen counts it.
[[nodiscard]] std::vector<std::string> to_settle_in_words(const audit::Audit& audit);

// "Not in order: 2 holds open, 1 decided and not done", "In order: no hold is open, 1 check to
// settle": the answer of an audit in one line.
[[nodiscard]] std::string how_it_stands(const audit::Audit& audit);

// "J06/03", "J06/1-4" for several positions, or "J06" for the joint as a whole.
[[nodiscard]] std::string place_text(const audit::Deviation& deviation);

// "use-as-is by KB with LM, 2025-05-20 08:00 (line 110): reason".
[[nodiscard]] std::string decision_in_words(const record::Entry<record::Disposition>& entry);

// Each decision that holds for it or for parts of it: "re-torque by KB, ... (line 41): reason",
// with "1-4: " before it where it does not hold for all.
[[nodiscard]] std::vector<std::string> decisions_in_words(const audit::Deviation& deviation);

// What is still to be done about it (progress::in_words); of a record that is to be corrected also
// the line that is wrong.
[[nodiscard]] std::string work_in_words(const progress::DecidedWork& work,
                                        const audit::Deviation& deviation);

// Why a deviation that was settled is open again, for each decision that counts no more: ": line 45
// came after the decision; it was judged on "found 52 N·m ...". It was settled renew by KB, ...",
// with " at 2" before it where it was not about all that is open.
[[nodiscard]] std::vector<std::string> open_again(const audit::Deviation& deviation);

// "likely: the gasket has relaxed (it holds "cover gasket")".
[[nodiscard]] std::string cause_in_words(const audit::Cause& cause);

}  // namespace words
