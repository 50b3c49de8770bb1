#include "record/person.h"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <memory>
#include <string>
#include <utility>

#include "quantity/visible_text.h"

namespace record {
namespace {

using quantity::Character;
using quantity::first_character;

// Greek and Cyrillic letters that are drawn as a Latin one, by rising number.
constexpr std::pair<char32_t, char> kDrawnAs[] = {
    {0x37F, 'J'}, {0x391, 'A'}, {0x392, 'B'}, {0x395, 'E'}, {0x396, 'Z'}, {0x397, 'H'},
    {0x399, 'I'}, {0x39A, 'K'}, {0x39C, 'M'}, {0x39D, 'N'}, {0x39F, 'O'}, {0x3A1, 'P'},
    {0x3A4, 'T'}, {0x3A5, 'Y'}, {0x3A7, 'X'}, {0x3B1, 'a'}, {0x3B3, 'y'}, {0x3B9, 'i'},
    {0x3BD, 'v'}, {0x3BF, 'o'}, {0x3C1, 'p'}, {0x3C3, 'o'}, {0x3C5, 'u'}, {0x3DC, 'F'},
    {0x3F1, 'p'}, {0x3F2, 'c'}, {0x3F3, 'j'}, {0x3F9, 'C'}, {0x3FA, 'M'}, {0x405, 'S'},
    {0x406, 'I'}, {0x408, 'J'}, {0x410, 'A'}, {0x412, 'B'}, {0x415, 'E'}, {0x41A, 'K'},
    {0x41C, 'M'}, {0x41D, 'H'}, {0x41E, 'O'}, {0x420, 'P'}, {0x421, 'C'}, {0x422, 'T'},
    {0x423, 'Y'}, {0x425, 'X'}, {0x42C, 'b'}, {0x430, 'a'}, {0x433, 'r'}, {0x435, 'e'},
    {0x43E, 'o'}, {0x440, 'p'}, {0x441, 'c'}, {0x443, 'y'}, {0x445, 'x'}, {0x455, 's'},
    {0x456, 'i'}, {0x458, 'j'}, {0x461, 'w'}, {0x474, 'V'}, {0x475, 'v'}, {0x4AE, 'Y'},
    {0x4AF, 'y'}, {0x4BB, 'h'}, {0x4BD, 'e'}, {0x4C0, 'I'}, {0x4CF, 'i'}, {0x501, 'd'},
    {0x50C, 'G'}, {0x51B, 'q'}, {0x51C, 'W'}, {0x51D, 'w'}};

template <class Use>
void each_character(std::string_view text, const Use& use) {
  while (!text.empty()) {
    const auto character = first_character(text);
    use(character);
    text.remove_prefix(character.bytes.size());
  }
}

// In lower case, composed and of the usual width; nothing where it is not UTF-8.
std::string folded(std::string_view text) {
  utf8proc_uint8_t* made = nullptr;
  const auto size = utf8proc_map(
      reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
      static_cast<utf8proc_ssize_t>(text.size()), &made,
      static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_COMPAT |
                                     UTF8PROC_CASEFOLD | UTF8PROC_IGNORE));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(made, &std::free);
  if (size < 0) return {};
  return {reinterpret_cast<const char*>(made), static_cast<std::size_t>(size)};
}

bool is_between_letters(const Character& each) {
  return each.point == '.' || each.is_hidden ||
         utf8proc_category(static_cast<utf8proc_int32_t>(each.point)) == UTF8PROC_CATEGORY_ZS;
}

std::string letters_of(std::string_view name) {
  std::string seen;
  each_character(name, [&](const Character& each) {
    if (!each.is_hidden) seen += each.bytes;
  });
  std::string letters;
  each_character(folded(seen), [&](const Character& each) {
    if (!is_between_letters(each)) letters += each.bytes;
  });
  return letters;
}

// Before case is folded: a Greek capital may be drawn as a Latin letter while its small one is not.
std::string drawn(std::string_view name) {
  std::string latin;
  each_character(name, [&](const Character& each) {
    const auto* found =
        std::ranges::find(kDrawnAs, each.point, [](const auto& pair) { return pair.first; });
    if (found == std::end(kDrawnAs)) {
      latin += each.bytes;
    } else {
      latin += found->second;
    }
  });
  return latin;
}

}  // namespace

bool is_same_person(std::string_view a, std::string_view b) {
  return a == b || letters_of(a) == letters_of(b) || letters_of(drawn(a)) == letters_of(drawn(b));
}

}  // namespace record
