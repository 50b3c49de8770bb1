#pragma once

#include <string>
#include <string_view>

namespace words {

// The first sixteen digits of a hash in fours, to be printed and compared by eye:
// "3f2a 91c0 77de 0b12"; "none" where there is no hash.
[[nodiscard]] std::string short_hash(std::string_view hash);

// A hash as it was read off a page, in upper or lower case, whole or short, with blanks or without;
// in lower case without any. InputError for fewer than the sixteen digits of a short one, or for
// what is no hash.
[[nodiscard]] std::string read_hash(std::string_view typed);

}  // namespace words
