#pragma once

#include <optional>
#include <string>

#include "finding/survey.h"

namespace finding {

// What came out that is not what the joint says, in words: "length 35 mm came out where 50 mm
// belongs"; empty where nothing differs.
[[nodiscard]] std::string other_fastener(const record::Joint& joint,
                                         const record::Removal& removal);

// The position of another joint whose fastener has the length that belongs here while this one has
// its: the two were swapped.
[[nodiscard]] std::optional<std::string> swapped_with(const Survey& survey,
                                                      const record::Joint& joint,
                                                      const record::Removal& removal);

}  // namespace finding
