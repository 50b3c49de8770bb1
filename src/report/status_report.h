#pragma once

#include <string>

#include "progress/open_list.h"
#include "report/text.h"

namespace report {

// What is still open, and the counts of each joint and bag: what came out, what is back.
[[nodiscard]] std::string status_text(const progress::Reassembly& reassembly,
                                      const std::vector<progress::OpenPoint>& open,
                                      const Page& page);
// {"finished":bool,"open":[{"joint"|null,"says"}],"joints":[{"joint","count","out","final_value",
// "second_check","striped"}],"bags":[{"bag","out","back","left"}]}
[[nodiscard]] std::string status_json(const progress::Reassembly& reassembly,
                                      const std::vector<progress::OpenPoint>& open);

}  // namespace report
