#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/renewal_list.h"
#include "words/text.h"

namespace screen {

// How many in all; then what is to be bought, by size, length and grade with count, positions and
// reasons; then what has arrived, and the seized ones that are to be looked at first. The list is
// cut; `whole` is the command that cuts none, empty where it was given.
[[nodiscard]] std::string renewals_text(const std::vector<plan::Renewing>& list,
                                        std::string_view whole, const words::Page& page);

// {"to_buy":[{"size","length_mm","grade","count","for":[{"joint","position","why":[]}]}],
//  "arrived":[the same],"look_first":[the same]}; "length_mm" is null where it is not known.
[[nodiscard]] std::string renewals_json(const std::vector<plan::Renewing>& list);

}  // namespace screen
