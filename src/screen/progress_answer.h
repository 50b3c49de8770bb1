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
[[nodiscard]] std::string standing_json(const progress::Progress& progress);

// The screen of one step for the guided way: its position large, what to set and turn, where it is
// in its pass, what comes after it, and the keys.
[[nodiscard]] std::string step_screen(const progress::Step& step,
                                      const progress::Progress& progress, const words::Page& page);

// What the keys mean at a step.
[[nodiscard]] std::string step_keys();

}  // namespace screen
