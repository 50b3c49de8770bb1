#pragma once

#include "audit/audit.h"
#include "paper/markup.h"

namespace paper {

// Every deviation, holds first, with room to write the decision, who made it and when.
void write_deviation_table(Markup& page, const audit::Audit& audit);

}  // namespace paper
