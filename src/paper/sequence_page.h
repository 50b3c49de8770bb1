#pragma once

#include <string>

#include "audit/audit.h"
#include "paper/document.h"
#include "plan/reassembly_plan.h"

namespace paper {

// The plan to work from at the machine: first what to see to before and the order of the joints,
// then a page for each joint with its map, the tightening order drawn on it, and for each pass
// target, wrench, setting and a box to tick for every position in its turn.
[[nodiscard]] std::string sequence_page(const plan::ReassemblyPlan& plan,
                                        const record::LogbookStart& start,
                                        const audit::Audit& audit, const Imprint& imprint);

}  // namespace paper
