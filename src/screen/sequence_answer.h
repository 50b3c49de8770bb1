#pragma once

#include <string>
#include <string_view>

#include "audit/audit.h"
#include "plan/reassembly_plan.h"
#include "progress/progress.h"
#include "words/before_joint.h"
#include "words/text.h"

namespace screen {

// The plan as a fitter follows it: cautions, open holds and what is still missing first, then joint
// by joint what has to be so before it and the passes with target, wrench and setting and the order
// of positions, each with what of it is done; at the end what was left open, under what it waits
// for, and the pass rules with their sources. Of joints that are done it tells no more than that,
// unless `whole`.
[[nodiscard]] std::string sequence_text(const plan::ReassemblyPlan& plan,
                                        const progress::Progress& progress,
                                        const audit::Audit& audit,
                                        const words::BeforeJoints& before, bool whole,
                                        const words::Page& page);

// What is still to be done of it and the first of that: "17 joints to go, 38 passes open; first
// J10/1-8, pass 1: TW2 at 60 N·m"; empty where all is done.
[[nodiscard]] std::string sequence_in_short(const plan::ReassemblyPlan& plan,
                                            const progress::Progress& progress,
                                            const words::Page& page);

// {"steps":[{"n","joint","pass","position","kind","target_nm"|null,"limit":"min"|"max"|null,
// "angle_deg"|null,"wrench"|null,"setting"|null,"setting_unit"|null,"provisional","applied_nm"|null,
// "adapter"|null,"stage"}],"warnings":[..],"joints":[{"joint","stage","why","final_when"|null,
// "order","before":[{"met","says"}],"groups":[{"positions","from","rule"|null,"source"|null,
// "known"|null,"before"|null,"recheck"|null}],"otherwise":[{"pass","restart_from","do"}],
// "recheck_after":[..]}],"goes_back":[{"met","says"}]}: one step a position a pass; stage is "at
// its turn" or "final", and a joint that is left open at its turn has one row under "joints" for
// each.
[[nodiscard]] std::string sequence_json(const plan::ReassemblyPlan& plan,
                                        const words::BeforeJoints& before);

}  // namespace screen
