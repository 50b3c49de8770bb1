#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "progress/progress.h"
#include "words/text.h"

namespace screen {

// One step in a line: "J06/07, pass 2 of 3: TW2 at 56 N·m (70 %)".
[[nodiscard]] std::string step_line(const progress::Step& step);

// Where the job stands: how many steps are done and left out, and what comes next.
[[nodiscard]] std::string standing_text(const progress::Progress& progress,
                                        const words::Page& page);
// {"done","left_out","of","next":{"joint","pass","passes","position","kind","target_nm",
// "angle_deg","wrench","setting","setting_unit"}|null}
// Of this joint alone where one is named.
[[nodiscard]] std::string standing_json(const progress::Progress& progress,
                                        const std::optional<std::string>& joint);

}  // namespace screen
