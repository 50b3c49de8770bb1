#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace quantity {

// Text from people, files and names of files may hold what is not seen and yet acts: control
// characters and escape sequences on a terminal, marks that turn the order of what stands around
// them, characters without width. Here stands which they are; entry refuses them, and whatever is
// put out shows them in place of doing what they ask for.

// One character at the front of a text that is not empty.
struct Character {
  std::string_view bytes;
  char32_t point = 0;
  bool is_hidden = false;  // or broken: a byte that is not UTF-8 (RFC 3629), taken by itself
  bool is_broken = false;
};
[[nodiscard]] Character first_character(std::string_view text);

// A control character (general category Cc, line ends too), a separator of lines or paragraphs, a
// bidirectional mark (Unicode UAX 9), one that is drawn with no width or not at all (Unicode 15.0,
// PropList and UTR 36, from memory; also the selectors that choose between the text and the picture
// of a sign, U+FE0E and U+FE0F, since most signs have no second form to choose), or one that has no
// meaning to everybody: noncharacters and private use.
[[nodiscard]] bool is_hidden(char32_t point);

// The first hidden or broken one as it is told to people, "U+202E" or "byte 9B"; empty where there
// is none.
[[nodiscard]] std::string first_hidden_in(std::string_view text);

// With "<U+202E>" or "<byte 9B>" in place of each.
[[nodiscard]] std::string visible(std::string_view text);

// The same for a text of several lines: LF and HT stay.
[[nodiscard]] std::string visible_lines(std::string_view text);

// A JSON text with "\u202e" in place of each, which says the same to who reads it. Valid JSON holds
// them inside strings alone; its line ends stay.
[[nodiscard]] std::string visible_json(std::string_view json);

}  // namespace quantity
