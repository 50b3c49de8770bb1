#include "terminal/locale_characters.h"

#include <fmt/format.h>
#include <iconv.h>
#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdint>

#include "quantity/ascii.h"

namespace terminal {
namespace {

struct StandIn {
  char32_t point;
  std::string_view plain;
};

// Of what this program itself writes, and of letters that are none with an accent.
constexpr StandIn kStandIns[] = {
    {0xB7, "."},    {0xB1, "+/-"},  {0xB0, "deg"}, {0xB2, "2"},      {0xB3, "3"},
    {0xB5, "u"},    {0x3BC, "u"},   {0x3C0, "pi"}, {0x3B8, "theta"}, {0x3C3, "sigma"},
    {0x3C4, "tau"}, {0x3C7, "chi"}, {0x394, "D"},  {0x3A3, "sum"},   {0xD7, "x"},
    {0xDF, "ss"},   {0xE6, "ae"},   {0xC6, "AE"},  {0xF8, "o"},      {0xD8, "O"},
    {0x142, "l"},   {0x141, "L"},   {0x153, "oe"}, {0x152, "OE"},    {0x2013, "-"},
    {0x2014, "-"},  {0x2018, "'"},  {0x2019, "'"}, {0x201C, "\""},   {0x201D, "\""},
    {0x2026, "."},  {0x2033, "\""}, {0x2212, "-"}, {0x2213, "-/+"},  {0x221A, "sqrt"},
    {0x2264, "<="}, {0x2265, ">="},
};
constexpr char32_t kDegree = 0xB0;

bool is_ascii(char32_t point) { return point < 0x80; }

// What a character is made of without its accents, where that is ASCII; empty else.
std::string without_accents(std::string_view bytes) {
  std::array<utf8proc_int32_t, 32> parts{};
  const auto count = utf8proc_decompose(
      reinterpret_cast<const utf8proc_uint8_t*>(bytes.data()),
      static_cast<utf8proc_ssize_t>(bytes.size()), parts.data(), parts.size(),
      static_cast<utf8proc_option_t>(UTF8PROC_COMPAT | UTF8PROC_DECOMPOSE | UTF8PROC_STRIPMARK));
  std::string plain;
  for (utf8proc_ssize_t i = 0; i < std::min<utf8proc_ssize_t>(count, parts.size()); ++i) {
    const auto point = static_cast<char32_t>(parts[static_cast<std::size_t>(i)]);
    if (!is_ascii(point)) return {};
    plain += static_cast<char>(point);
  }
  return plain;
}

bool is_mark(char32_t point) {
  const auto category = utf8proc_category(static_cast<utf8proc_int32_t>(point));
  return category == UTF8PROC_CATEGORY_MN || category == UTF8PROC_CATEGORY_ME;
}

bool acts_on_terminal(const std::string& bytes) {
  return std::ranges::any_of(bytes, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F;
  });
}

const iconv_t kNoConverter = reinterpret_cast<iconv_t>(-1);

}  // namespace

std::optional<std::string> locale_characters(
    const std::function<std::optional<std::string>(const char*)>& environment) {
  std::string locale;
  for (const auto* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    if (locale.empty()) locale = environment(name).value_or("");
  }
  if (locale.empty()) return std::nullopt;
  locale = locale.substr(0, locale.find('@'));
  const auto point = locale.find('.');
  if (point == std::string::npos) return "us-ascii";
  auto characters = locale.substr(point + 1);
  for (char& c : characters) c = quantity::lower(c);
  return characters;
}

bool is_utf_8(std::string_view characters) { return characters == "utf-8" || characters == "utf8"; }

LocaleText::LocaleText(std::optional<std::string> characters)
    : stays_(!characters || is_utf_8(*characters)) {
  if (stays_ || *characters == "us-ascii") return;
  const auto opened = ::iconv_open(characters->c_str(), "UTF-8");
  if (opened != kNoConverter) converter_ = opened;
}

LocaleText::~LocaleText() {
  if (converter_ != nullptr) ::iconv_close(converter_);
}

// Empty where the locale has no such character.
std::string LocaleText::in_locale(std::string_view bytes) {
  if (converter_ == nullptr) return {};
  std::string from(bytes);
  std::array<char, 16> room{};
  char* in = from.data();
  char* out = room.data();
  std::size_t in_left = from.size();
  std::size_t out_left = room.size();
  (void)::iconv(converter_, nullptr, nullptr, nullptr, nullptr);
  const auto replaced = ::iconv(converter_, &in, &in_left, &out, &out_left);
  std::string shown(room.data(), room.size() - out_left);
  // What shifts between sets of characters does so by control characters.
  return replaced == 0 && in_left == 0 && !acts_on_terminal(shown) ? shown : std::string();
}

std::string LocaleText::plain(const quantity::Character& character) const {
  if (character.point == kDegree && before_ != ' ') return " deg";
  const auto* stand_in = std::ranges::find(kStandIns, character.point, &StandIn::point);
  if (stand_in != std::end(kStandIns)) return std::string(stand_in->plain);
  if (is_mark(character.point)) return {};
  auto plain = without_accents(character.bytes);
  if (!plain.empty()) return plain;
  return fmt::format("<U+{:04X}>", static_cast<std::uint32_t>(character.point));
}

std::string LocaleText::put(const quantity::Character& character) {
  if (stays_) return std::string(character.bytes);
  if (is_ascii(character.point)) {
    const char c = character.bytes.front();
    if (c == '\n') ahead_ = 0;
    const bool is_in_gap = c == ' ' && before_ == ' ';
    before_ = c;
    if (!is_in_gap || ahead_ == 0) return std::string(1, c);
    --ahead_;
    return {};
  }
  auto shown = in_locale(character.bytes);
  if (shown.empty()) {
    shown = plain(character);
    const auto columns = static_cast<std::size_t>(
        std::max(0, utf8proc_charwidth(static_cast<utf8proc_int32_t>(character.point))));
    if (shown.size() > columns) ahead_ += shown.size() - columns;
  }
  if (!shown.empty()) before_ = shown.back();
  return shown;
}

std::string LocaleText::put(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const auto character = quantity::first_character(text);
    shown += put(character);
    text.remove_prefix(character.bytes.size());
  }
  return shown;
}

std::string LocaleText::put_line(std::string_view text) {
  before_ = '\n';
  ahead_ = 0;
  return put(text);
}

}  // namespace terminal
