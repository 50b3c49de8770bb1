#pragma once

#include "audit/audit.h"
#include "paper/markup.h"

namespace paper {

// Every deviation, holds first: what was found and what to do.
void write_deviation_table(Markup& page, const audit::Audit& audit);

}  // namespace paper
