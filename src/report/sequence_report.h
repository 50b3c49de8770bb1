#pragma once

#include <string>

#include "audit/audit.h"
#include "plan/reassembly_plan.h"
#include "report/text.h"

namespace report {

// The plan as a fitter follows it: cautions, open holds and what is still missing first, then joint
// by joint the passes with target, wrench and setting and the order of positions.
[[nodiscard]] std::string sequence_text(const plan::ReassemblyPlan& plan,
                                        const record::LogbookStart& start,
                                        const audit::Audit& audit, const Page& page);

// {"steps":[{"n","joint","pass","position","kind","target_nm"|null,"limit":"min"|"max"|null,
// "angle_deg"|null,"wrench"|null,"setting"|null,"setting_unit"|null,"provisional",
// "applied_nm"|null,"adapter"|null}],"warnings":[..]}: one step a position a pass.
[[nodiscard]] std::string sequence_json(const plan::ReassemblyPlan& plan);

}  // namespace report
