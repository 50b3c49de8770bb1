#pragma once

#include <string_view>

namespace record {

// Whether two names, as typed, are of one person: in any case of letters, whatever blanks, full
// stops and hidden characters (quantity/visible_text.h, from a file) stand in them ("A. Kay",
// "a.kay", "A  Kay"), however a letter is written that looks the same: composed or not, full width
// (NFKC, Unicode UAX 15), or a Greek or Cyrillic letter in place of a Latin one (from Unicode
// UTS 39). Who would pass for somebody else has to take another name.
[[nodiscard]] bool is_same_person(std::string_view a, std::string_view b);

}  // namespace record
