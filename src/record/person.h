#pragma once

#include <string_view>

namespace record {

// Whether two names, as typed, are of one person: in any case of letters, and whatever blanks and
// full stops stand in them ("A. Kay", "a.kay", "A  Kay"). Who would pass for somebody else has to
// take another name.
[[nodiscard]] bool is_same_person(std::string_view a, std::string_view b);

}  // namespace record
