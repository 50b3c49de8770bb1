#pragma once

#include "audit/audit.h"
#include "paper/markup.h"

namespace paper {

// Every deviation, holds first: what was found with its likeliest cause, what to do, and the
// decision with its reason, who made it and when and the second person. Open ones say so, with the
// last decision where the evidence has changed since.
void write_deviation_table(Markup& page, const audit::Audit& audit);

}  // namespace paper
