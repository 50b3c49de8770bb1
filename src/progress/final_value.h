#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "progress/reassembly.h"

namespace progress {

// Of these positions, those that were decided to stay as they were found, with no fastener or the
// one that never came out, in one sentence that says which are meant: "FLY/03 stays as it was found
// (decided in line 89); write FLY/1-2,4-6". Empty where none is among them.
[[nodiscard]] std::string why_left_alone(const Reassembly& reassembly, std::string_view joint,
                                         const std::vector<int>& positions);

// The line that last set a wrench at a position that went through its passes and ended below the
// least that is specified, where nobody decided since that it is used so; nothing otherwise.
[[nodiscard]] const record::Entry<record::Tightening>* ended_too_low(const record::Job& job,
                                                                     const Progress& progress,
                                                                     std::string_view joint,
                                                                     int position);

// Why a position that has its final value does not stand at it all the same: it ended too low, or a
// pass before was forgotten. What to do stands in the sentence. Empty where it does.
[[nodiscard]] std::string why_not_final(const record::Job& job, const Progress& progress,
                                        std::string_view joint, int position);

}  // namespace progress
