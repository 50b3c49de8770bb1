#pragma once

#include <string>
#include <string_view>

namespace record {

// The id of a deviation, folded: equal for ids that are the same in any case of letters, with or
// without zeros before a position ("found-low:J06/3").
[[nodiscard]] std::string folded_deviation_id(std::string_view id);

[[nodiscard]] bool same_deviation_id(std::string_view a, std::string_view b);

}  // namespace record
