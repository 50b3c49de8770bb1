#pragma once

#include <optional>
#include <string_view>

#include "audit/audit.h"

namespace audit {

// Puts to each part of a deviation the decision that holds for it: of the decisions about it the
// latest that was made on just this evidence. Where there is none such, the latest on other
// evidence, which counts no more: the part is open again, and with it the deviation. A decision
// from before schema step 9 holds where its evidence is as it was made then. One that is dated
// before what it rests on settles nothing.
void apply_dispositions(const record::Job& job, Deviations& deviations);

// The deviation of this id, or that with a part of this id ("found-low:J08/05" of "found-low:J08");
// nothing where the audit has none such.
[[nodiscard]] const Deviation* deviation_in(const Audit& audit, std::string_view id);

// A decision about all of the deviation that is open, or about the part with this id alone: what it
// is about and what it was made on. Decision, reason and second person are the caller's.
[[nodiscard]] record::Disposition disposition_about(const Deviation& deviation,
                                                    std::string_view id);

// The decision that says that what was decided about it has been done: the current one of the part
// with this id, or of the whole, once more. Nothing where none is settled by a repair or a
// correction of the record that is still to be done.
[[nodiscard]] std::optional<record::Disposition> carried_out(const Deviation& deviation,
                                                             std::string_view id);

// The part of it that has this id alone; nothing where the id is that of the whole.
[[nodiscard]] const Part* part_in(const Deviation& deviation, std::string_view id);

}  // namespace audit
