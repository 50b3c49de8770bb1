#pragma once

#include <string>
#include <vector>

#include "record/history_line.h"
#include "screen/joint_page.h"

namespace screen {

// Everything about one position: how it came out, its findings, what the audit says of it and of
// its joint, its passes, stripe and second check, and every line about it as it was entered.
[[nodiscard]] std::string position_page_text(const JointPage& page_of, int position,
                                             const std::vector<record::HistoryLine>& lines,
                                             const words::Page& page);

// {"row": as in "positions" above,"passes":[{"pass","kind","target_nm","angle_deg","stands","by",
// "done_at","line"}],"second_check":{"by","done_at","line"}|null,"stripe": the same|null,
// "deviations":[..],"photographs":[..],"lines":[as history --json]}
[[nodiscard]] std::string position_page_json(const JointPage& page_of, int position,
                                             const std::vector<record::HistoryLine>& lines);

}  // namespace screen
