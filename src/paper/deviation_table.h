#pragma once

#include "audit/audit.h"
#include "paper/markup.h"

namespace paper {

// The deviations that are open or decided and not done, holds first: what was found with its
// likeliest cause, what to do, and what was decided of parts of it; with the last decision where
// the evidence has changed since. Below them, apart, those that are settled, with the decision, its
// reason, who made it and when and the second person.
void write_deviation_tables(Markup& page, const audit::Audit& audit);

}  // namespace paper
