#pragma once

#include <string>
#include <string_view>

#include "progress/progress.h"

namespace progress {

// Who did the passes of this position, in the order of the passes, each once; then those who did
// some of them in copies that were apart (Progress::done_apart).
[[nodiscard]] std::vector<std::string> hands_on(const Progress& progress, std::string_view joint,
                                                int position);

// True where this person had a hand in tightening the position and so cannot be the second person,
// whatever the case in which the name was written.
[[nodiscard]] bool is_same_person(const Progress& progress, std::string_view joint, int position,
                                  std::string_view who);

}  // namespace progress
