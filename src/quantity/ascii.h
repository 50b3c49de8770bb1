#pragma once

#include <cstddef>
#include <string_view>

namespace quantity {

// Letters and digits as typed on any keyboard. Unlike <cctype> these never look at the locale and
// take every byte, so text in UTF-8 passes through them unharmed.
[[nodiscard]] constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Of the printable ones, the blank among them, which need no look at what they may act on.
[[nodiscard]] constexpr bool is_plain(char c) { return c >= ' ' && c <= '~'; }

[[nodiscard]] constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

[[nodiscard]] constexpr bool is_letter(char c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

// Whether the text begins with the prefix in any case; the prefix is given in lower case.
[[nodiscard]] constexpr bool starts_with_in_any_case(std::string_view text,
                                                     std::string_view lower_prefix) {
  if (text.size() < lower_prefix.size()) return false;
  for (std::size_t i = 0; i < lower_prefix.size(); ++i) {
    if (lower(text[i]) != lower_prefix[i]) return false;
  }
  return true;
}

// The same word whatever the case of its letters.
[[nodiscard]] constexpr bool same_in_any_case(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (lower(a[i]) != lower(b[i])) return false;
  }
  return true;
}

// Whether the text is just so many hexadecimal digits, in lower case as they are kept everywhere.
[[nodiscard]] constexpr bool is_hexadecimal(std::string_view text, std::size_t digits) {
  return text.size() == digits && text.find_first_not_of("0123456789abcdef") == text.npos;
}

}  // namespace quantity
