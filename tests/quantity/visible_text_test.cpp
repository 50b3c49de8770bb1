#include "quantity/visible_text.h"

#include <utf8proc.h>

#include <nlohmann/json.hpp>

#include "support/catch.h"
#include "support/property.h"

namespace visible_text_test {

using quantity::first_character;
using quantity::is_hidden;
using quantity::visible;

namespace {

std::string utf8(char32_t point) {
  utf8proc_uint8_t bytes[4];
  const auto size = utf8proc_encode_char(static_cast<utf8proc_int32_t>(point), bytes);
  return {reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

}  // namespace

// Against the Unicode data of utf8proc: whatever has no place on the line there is hidden here.
TEST_CASE("every control, separator and mark of direction is hidden", "[quantity]") {
  for (utf8proc_int32_t point = 0; point <= 0x10FFFF; ++point) {
    const auto category = utf8proc_category(point);
    const bool is_control = category == UTF8PROC_CATEGORY_CC || category == UTF8PROC_CATEGORY_ZL ||
                            category == UTF8PROC_CATEGORY_ZP;
    const auto direction = utf8proc_get_property(point)->bidi_class;
    const bool turns =
        direction >= UTF8PROC_BIDI_CLASS_LRE && direction != UTF8PROC_BIDI_CLASS_AN &&
        (direction == UTF8PROC_BIDI_CLASS_LRE || direction == UTF8PROC_BIDI_CLASS_LRO ||
         direction == UTF8PROC_BIDI_CLASS_RLE || direction == UTF8PROC_BIDI_CLASS_RLO ||
         direction == UTF8PROC_BIDI_CLASS_PDF || direction == UTF8PROC_BIDI_CLASS_LRI ||
         direction == UTF8PROC_BIDI_CLASS_RLI || direction == UTF8PROC_BIDI_CLASS_FSI ||
         direction == UTF8PROC_BIDI_CLASS_PDI);
    if ((is_control || turns) && !is_hidden(static_cast<char32_t>(point))) {
      CAPTURE(point);
      CHECK(is_hidden(static_cast<char32_t>(point)));
    }
  }
  for (const char32_t point :
       {0xADU, 0x61CU, 0x200BU, 0x200EU, 0x200FU, 0x2060U, 0xFEFFU, 0xE0041U}) {
    CHECK(is_hidden(point));
  }
}

// Default_Ignorable_Code_Point and the categories of Unicode, as utf8proc has them.
TEST_CASE("what is drawn by nobody or means nothing to others is hidden", "[quantity]") {
  for (utf8proc_int32_t point = 0; point <= 0x10FFFF; ++point) {
    const bool is_ignored = utf8proc_get_property(point)->ignorable != 0;
    const bool is_private = utf8proc_category(point) == UTF8PROC_CATEGORY_CO;
    if ((is_ignored || is_private) && !is_hidden(static_cast<char32_t>(point))) {
      CAPTURE(point);
      CHECK(is_hidden(static_cast<char32_t>(point)));
    }
  }
  for (const char32_t point : {0x2800U, 0xFDD0U, 0xFDEFU, 0xFE0EU, 0xFE0FU, 0xFFFEU, 0x1FFFEU,
                               0x5FFFFU, 0xF8FFU, 0x10FFFDU, 0x10FFFFU}) {
    CHECK(is_hidden(point));
  }
}

TEST_CASE("no letter, digit, sign or picture is hidden", "[quantity]") {
  for (utf8proc_int32_t point = 0; point <= 0x10FFFF; ++point) {
    const auto category = utf8proc_category(point);
    const bool is_seen = (category >= UTF8PROC_CATEGORY_ND && category <= UTF8PROC_CATEGORY_SO) ||
                         ((category == UTF8PROC_CATEGORY_LU || category == UTF8PROC_CATEGORY_LL) &&
                          utf8proc_charwidth(point) > 0);
    const bool is_blank = point == 0x2800 || point == 0x1D159;  // called signs, and drawn as none
    if (is_seen && !is_blank && is_hidden(static_cast<char32_t>(point))) {
      CAPTURE(point);
      CHECK_FALSE(is_hidden(static_cast<char32_t>(point)));
    }
  }
  CHECK(visible("80 N·m ±5 % ≤ 90°, שלום, 漢字, ⚠") == "80 N·m ±5 % ≤ 90°, שלום, 漢字, ⚠");
}

TEST_CASE("what is hidden is shown with its number", "[quantity]") {
  CHECK(visible("a\x1b[2Jb") == "a<U+001B>[2Jb");
  CHECK(visible("a\u009b2J") == "a<U+009B>2J");
  CHECK(visible("a\u202Egpj") == "a<U+202E>gpj");
  CHECK(visible("\x9b") == "<byte 9B>");
  CHECK(visible("\xed\xa0\x80") == "<byte ED><byte A0><byte 80>");  // a surrogate
  CHECK(visible("\xc0\xaf") == "<byte C0><byte AF>");               // longer than need be
  CHECK(visible("\xf4\x90\x80\x80").starts_with("<byte F4>"));      // beyond the last
  CHECK(visible("\xe2\x80") == "<byte E2><byte 80>");               // breaks off
  CHECK(quantity::visible_lines("a\n\tb\r") == "a\n\tb<U+000D>");
  CHECK(quantity::first_hidden_in("plain").empty());
  CHECK(quantity::first_hidden_in("a\u2066b") == "U+2066");
}

TEST_CASE("JSON says the same with what is hidden written out", "[quantity]") {
  const std::string text = "a\u202Eb\u200Bc\U000E0041d\u2028";
  const auto json = nlohmann::json(text).dump();
  const auto written = quantity::visible_json(json);
  CHECK(quantity::first_hidden_in(written).empty());
  CHECK(nlohmann::json::parse(written).get<std::string>() == text);
}

TEST_CASE("nothing hidden is left of any bytes", "[quantity]") {
  holds_always("shown text is visible, and what was visible is left as it is", [] {
    std::string text;
    for (const auto point : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 0x3000))) {
      text += utf8(static_cast<char32_t>(point));
    }
    const auto bytes = *rc::gen::arbitrary<std::string>();
    for (const auto& any : {text, bytes, bytes + text}) {
      const auto shown = visible(any);
      RC_ASSERT(quantity::first_hidden_in(shown).empty());
      RC_ASSERT(visible(shown) == shown);
    }
  });
}

}  // namespace visible_text_test
