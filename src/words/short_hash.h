#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace words {

// The first sixteen digits of a hash in fours, to be printed and compared by eye:
// "3f2a 91c0 77de 0b12"; "none" where there is no hash.
[[nodiscard]] std::string short_hash(std::string_view hash);

// Those of the ends of a log (logbook/hash_chain.h): "3f2a 91c0 77de 0b12 and 8c11 ...".
[[nodiscard]] std::string short_hashes(const std::vector<std::string>& hashes);

// A hash as it was read off a page, in upper or lower case, whole or short, with blanks or without;
// in lower case without any. InputError for fewer than the sixteen digits of a short one, or for
// what is no hash.
[[nodiscard]] std::string read_hash(std::string_view typed);

// The same for what short_hashes writes: one, or several parted by "and".
[[nodiscard]] std::vector<std::string> read_hashes(std::string_view typed);

}  // namespace words
