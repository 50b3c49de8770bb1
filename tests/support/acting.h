#pragma once

#include <string>
#include <string_view>

#include "quantity/visible_text.h"

// The first character of an answer that acts, as it is told to people; empty where none does: its
// own line ends apart, and on a page the pairs of isolates that set off what runs from right to
// left.
inline std::string acting_in(const std::string& text, bool is_page = false) {
  std::string rest;
  for (std::string_view left = text; !left.empty();) {
    const auto character = quantity::first_character(left);
    const bool is_own = character.point == '\n' || (character.point == '\r' && !is_page) ||
                        (is_page && (character.point == 0x2068 || character.point == 0x2069));
    if (!is_own || character.is_broken) rest += character.bytes;
    left.remove_prefix(character.bytes.size());
  }
  return quantity::first_hidden_in(rest);
}
