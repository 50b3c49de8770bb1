#include "quantity/visible_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <utility>

#include "quantity/ascii.h"

namespace quantity {
namespace {

// Rising, both ends included.
constexpr std::pair<char32_t, char32_t> kHidden[] = {
    {0x00, 0x1F},         // C0
    {0x7F, 0x9F},         // DEL, C1
    {0xAD, 0xAD},         // soft hyphen
    {0x34F, 0x34F},       // combining grapheme joiner
    {0x61C, 0x61C},       // Arabic letter mark
    {0x115F, 0x1160},     // Hangul fillers
    {0x17B4, 0x17B5},     // Khmer inherent vowels
    {0x180B, 0x180F},     // Mongolian selectors and vowel separator
    {0x200B, 0x200F},     // zero-width space, joiners, marks of direction
    {0x2028, 0x202E},     // separators of lines and paragraphs, embeddings and overrides
    {0x2060, 0x206F},     // word joiner, invisible operators, isolates, deprecated marks
    {0x2800, 0x2800},     // braille without a dot
    {0x3164, 0x3164},     // Hangul filler
    {0xE000, 0xF8FF},     // private use
    {0xFDD0, 0xFDEF},     // noncharacters
    {0xFE00, 0xFE0F},     // variation selectors
    {0xFEFF, 0xFEFF},     // zero-width no-break space, the byte order mark
    {0xFFA0, 0xFFA0},     // halfwidth Hangul filler
    {0xFFF0, 0xFFFB},     // unassigned, interlinear annotation
    {0x13430, 0x13440},   // controls of hieroglyphs
    {0x1BCA0, 0x1BCA3},   // shorthand controls
    {0x1D159, 0x1D159},   // musical note without a head
    {0x1D173, 0x1D17A},   // musical controls
    {0xE0000, 0xE0FFF},   // tags, variation selectors
    {0xF0000, 0x10FFFF},  // private use
};

// The last two of each plane stand for no character.
bool is_last_of_plane(char32_t point) { return (point & 0xFFFEU) == 0xFFFEU; }

// The length and value of the sequence that a lead byte opens; a length of 0 for none.
struct Lead {
  std::size_t size = 0;
  char32_t bits = 0;
  char32_t least = 0;  // below it the sequence is longer than need be
};

Lead lead_of(unsigned char byte) {
  if (byte < 0x80) return {1, byte, 0};
  if (byte >= 0xC2 && byte < 0xE0) return {2, byte & 0x1FU, 0x80};
  if (byte >= 0xE0 && byte < 0xF0) return {3, byte & 0x0FU, 0x800};
  if (byte >= 0xF0 && byte < 0xF5) return {4, byte & 0x07U, 0x10000};
  return {};
}

std::string name_of(const Character& character) {
  if (character.is_broken) {
    return fmt::format("byte {:02X}", static_cast<unsigned char>(character.bytes.front()));
  }
  return fmt::format("U+{:04X}", static_cast<std::uint32_t>(character.point));
}

bool is_plain_or_line_end(char c) { return is_plain(c) || c == '\n'; }

// The text with what `shown` makes of each hidden or broken character but those that stay, which
// are ASCII.
template <class Stays, class Shown>
std::string with_shown(std::string_view text, const Stays& stays, const Shown& shown) {
  std::string result;
  result.reserve(text.size());
  while (true) {
    const auto plain = static_cast<std::size_t>(std::ranges::find_if_not(text, stays) -
                                                text.begin());  // nearly all of it
    result += text.substr(0, plain);
    text.remove_prefix(plain);
    if (text.empty()) break;
    const auto character = first_character(text);
    if (character.is_hidden) {
      result += shown(character);
    } else {
      result += character.bytes;
    }
    text.remove_prefix(character.bytes.size());
  }
  return result;
}

}  // namespace

Character first_character(std::string_view text) {
  constexpr char32_t kLast = 0x10FFFF;
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  const Character broken{text.substr(0, 1), 0, true, true};
  const auto lead = lead_of(byte(0));
  if (lead.size == 0 || text.size() < lead.size) return broken;
  auto point = lead.bits;
  for (std::size_t i = 1; i < lead.size; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return broken;
    point = (point << 6U) | (byte(i) & 0x3FU);
  }
  const bool is_surrogate = point >= 0xD800 && point <= 0xDFFF;
  if (point < lead.least || point > kLast || is_surrogate) return broken;
  return {text.substr(0, lead.size), point, is_hidden(point), false};
}

bool is_hidden(char32_t point) {
  if (point >= ' ' && point <= '~') return false;  // nearly all of them
  const auto* range =
      std::ranges::lower_bound(kHidden, point, {}, [](const auto& each) { return each.second; });
  return is_last_of_plane(point) || (range != std::end(kHidden) && range->first <= point);
}

std::string first_hidden_in(std::string_view text) {
  while (!text.empty()) {
    const auto character = first_character(text);
    if (character.is_hidden) return name_of(character);
    text.remove_prefix(character.bytes.size());
  }
  return {};
}

std::string visible(std::string_view text) {
  return with_shown(text, is_plain,
                    [](const Character& each) { return fmt::format("<{}>", name_of(each)); });
}

std::string visible_lines(std::string_view text) {
  return with_shown(
      text, [](char c) { return is_plain_or_line_end(c) || c == '\t'; },
      [](const Character& each) { return fmt::format("<{}>", name_of(each)); });
}

std::string visible_json(std::string_view json) {
  constexpr char32_t kFirstBeyond = 0x10000;  // written as a pair of surrogates
  return with_shown(json, is_plain_or_line_end, [](const Character& each) {
    if (each.is_broken) return std::string("\\ufffd");
    const auto point = static_cast<std::uint32_t>(each.point);
    if (each.point < kFirstBeyond) return fmt::format("\\u{:04x}", point);
    const auto above = point - 0x10000U;
    return fmt::format("\\u{:04x}\\u{:04x}", 0xD800U + (above >> 10U), 0xDC00U + (above & 0x3FFU));
  });
}

}  // namespace quantity
