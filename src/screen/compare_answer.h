#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "finding/survey.h"
#include "words/text.h"

namespace screen {

// Specification against found torque, one row a position. `all_units` shows N·m, ft·lbf and in·lbf
// side by side; else the logbook's own unit, and all three where the page is at least 100 wide. The
// rows of a joint are cut; `whole` is the command that cuts none, empty where it was given.
[[nodiscard]] std::string compare_text(const std::vector<const finding::JointState*>& joints,
                                       bool all_units, std::string_view whole,
                                       const words::Page& page);

// {"rows":[{"joint","position","spec":{"text","typed","low_nm","nominal_nm","high_nm","assumed",
// "source","condition"}|null,"found":{"best_nm","low_nm","high_nm","uncertainty_nm",
// "readings":[{"setting","unit","mark","offset_deg" where read}],"basis","adapter"|null,
// "prevailing_nm"|null,"wrench","line","uncertainty_parts":{"bracket_nm","wrench_nm","mark_nm",
// "stopping_late_nm","grip_nm","running_torque_nm"},"slope":{"low_nm_per_deg","high_nm_per_deg",
// "counts_nm_per_deg","from","mark_error_deg"},"enclosed_nm":{"low","high"}|null,
// "in_line_at_specification","tightened_to":{"best_nm","uncertainty_nm","verdict"}|null}|null,"verdict","grade","ratio","grade_reasons":[..]}],
// "joints":[{"joint","statistics":{..}|null}]} (joint_statistics.h).
// `low_nm` and `high_nm` of a finding are its bracket; null where it has only one bound. Each of
// the parts is one standard deviation, uncertainty_nm is twice the root of the sum of their
// squares. "verdict" is of what turns it to its mark today, that under "tightened_to" of what it
// was tightened to. "enclosed_nm" is what short and past enclose, where that is what counts as
// "bracket_nm".
[[nodiscard]] std::string compare_json(const std::vector<const finding::JointState*>& joints);

// One row of it.
[[nodiscard]] nlohmann::ordered_json compare_row_json(const finding::JointState& joint,
                                                      const finding::PositionState& position);

}  // namespace screen
