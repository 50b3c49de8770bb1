#include "quantity/number_text.h"

#include <cmath>
#include <limits>
#include <string>

#include "support/catch.h"
#include "support/property.h"
#include "support/refusal.h"

namespace number_text_test {

using quantity::read_count;
using quantity::read_leading_number;
using quantity::read_number;
using quantity::trimmed;
using quantity::write_exact;
using quantity::write_rounded;
using namespace std::string_literals;
using namespace std::string_view_literals;

TEST_CASE("a number is read with a point or a comma", "[quantity]") {
  CHECK(read_number("80") == 80.0);
  CHECK(read_number("3.5") == 3.5);
  CHECK(read_number("3,5") == 3.5);
  CHECK(read_number(".5") == 0.5);
  CHECK(read_number("0,125") == 0.125);
  CHECK(read_number("1.234") == 1.234);
  CHECK(read_number("1234,5") == 1234.5);
  CHECK(read_number("1,2345") == 1.2345);
  CHECK(read_number(" 80\t") == 80.0);
  CHECK(read_number("0") == 0.0);
}

TEST_CASE("what follows a number is handed back", "[quantity]") {
  const auto rest_of = [](std::string_view text) { return read_leading_number(text, text).rest; };
  CHECK(rest_of("80 N·m") == "N·m");
  CHECK(rest_of("80, 60") == ", 60");
  CHECK(rest_of("80.") == ".");
  CHECK(rest_of("90-100") == "-100");
  CHECK(rest_of("90..100") == "..100");
  CHECK(rest_of("90...100") == "...100");
  CHECK(rest_of("80\u00A0N·m") == "N·m");
  CHECK(read_leading_number("3,5 Nm", "3,5 Nm").digits == "3,5");
}

TEST_CASE("what may be a thousands separator is refused", "[quantity]") {
  for (const auto* text : {"1,234", "12,345", "1.234,5", "1,234.5", "1 234", "1'234", "1\u2019234",
                           "1_234", "1\u00A0234", "1\u202F234", "12,345,678", "1.234.567",
                           "1 234 567", "1'234 N·m", "1 234 N·m", "1,234 N·m"}) {
    INFO(text);
    CHECK_THAT(refusal_of([&] { return read_leading_number(text, text); }),
               ContainsSubstring("thousands"));
  }
}

TEST_CASE("what is no number is refused", "[quantity]") {
  for (const auto text : {""sv,
                          " "sv,
                          "\t\n"sv,
                          "\u00A0"sv,
                          "nan"sv,
                          "NaN"sv,
                          "inf"sv,
                          "Infinity"sv,
                          "-80"sv,
                          "\u221280"sv,
                          "+80"sv,
                          "- 80"sv,
                          "1e400"sv,
                          "1e2"sv,
                          "1E-2"sv,
                          "8 e5"sv,
                          "x80"sv,
                          "."sv,
                          ","sv,
                          "..5"sv,
                          "0x50"sv,
                          "80x"sv,
                          "80 N"sv,
                          "\0"sv,
                          "80\0"sv,
                          "8\0000"sv,
                          "1234567890123456789012345678901234567890"sv,
                          "0.1234567890123456789"sv,
                          "123456789012345678"sv,
                          "\xff\xfe"sv,
                          "\u0663"sv}) {
    INFO(quantity::quoted(text));
    CHECK_FALSE(refusal_of([&] { return read_number(text); }).empty());
  }
  CHECK_THAT(refusal_of([] { return read_number("-80"); }), ContainsSubstring("minus sign"));
  CHECK_THAT(refusal_of([] { return read_number("\u221280"); }), ContainsSubstring("minus sign"));
  CHECK_THAT(refusal_of([] { return read_number("1e400"); }), ContainsSubstring("powers of ten"));
  CHECK_THAT(refusal_of([] { return read_number(std::string(40, '7')); }),
             ContainsSubstring("40 digits"));
  CHECK_THAT(refusal_of([] { return read_number("0." + std::string(400, '0') + "1"); }),
             ContainsSubstring("expected a number"));
}

TEST_CASE("seventeen significant digits are taken wherever the mark stands", "[quantity]") {
  CHECK(read_number("0.0000012345678901234567") == 0.0000012345678901234567);
  CHECK(read_number("12345678901234567") == 12345678901234567.0);
  CHECK(read_number("00000000000000000000080") == 80.0);
}

TEST_CASE("a count is a whole number in its range", "[quantity]") {
  CHECK(read_count("1", 32) == 1);
  CHECK(read_count(" 32 ", 32) == 32);
  for (const auto text : {"0"sv, "33"sv, "-1"sv, "+1"sv, "1.5"sv, "1,5"sv, ""sv, " "sv, "1e1"sv,
                          "99999999999999999999"sv, "3 4"sv, "3\0"sv, "three"sv}) {
    INFO(quantity::quoted(text));
    CHECK_THAT(refusal_of([&] { return read_count(text, 32); }),
               ContainsSubstring("whole number from 1 to 32"));
  }
}

TEST_CASE("an exact number is short, plain and reads back", "[quantity]") {
  CHECK(write_exact(80.0) == "80");
  CHECK(write_exact(3.5) == "3.5");
  CHECK(write_exact(0.1) == "0.1");
  CHECK(write_exact(1e-7) == "0.0000001");
  CHECK(write_exact(1e16) == "10000000000000000");
  CHECK(write_exact(std::numeric_limits<double>::denorm_min()).size() == 326);
  holds_always("a positive number below 1e17 reads back bit for bit", [] {
    const auto mantissa = *rc::gen::inRange<std::int64_t>(1, std::int64_t{1} << 53);
    const double value = std::ldexp(static_cast<double>(mantissa), *rc::gen::inRange(-80, 3));
    RC_ASSERT(read_number(write_exact(value)) == value);
  });
}

TEST_CASE("a rounded number has four significant digits", "[quantity]") {
  CHECK(write_rounded(94.9072) == "94.91");
  CHECK(write_rounded(70.0) == "70");
  CHECK(write_rounded(0.1129848) == "0.113");
  CHECK(write_rounded(12345.6) == "12350");
  CHECK(write_rounded(99.996) == "100");
  CHECK(write_rounded(9999.9) == "10000");
  CHECK(write_rounded(0.000001234567) == "0.000001235");
  CHECK(write_rounded(0.0) == "0");
  CHECK(write_rounded(-0.0) == "0");
  CHECK(write_rounded(-3.14159) == "-3.142");
  holds_always("rounding moves a value by half a unit of its fourth digit at most", [] {
    const double value = *rc::gen::inRange(1, 1000000000) *
                         std::pow(10.0, -static_cast<double>(*rc::gen::inRange(0, 12)));
    const std::string text = write_rounded(value);
    RC_ASSERT(std::fabs(read_number(text) / value - 1.0) <= 0.5001e-3);
    auto digits = text;
    std::erase(digits, '.');
    digits.erase(0, digits.find_first_not_of('0'));
    digits.erase(digits.find_last_not_of('0') + 1);
    RC_ASSERT(digits.size() <= 4U);
  });
}

TEST_CASE("a plus-minus sign is known in its three spellings", "[quantity]") {
  CHECK(quantity::after_plus_minus("±5%") == "5%");
  CHECK(quantity::after_plus_minus("+/- 5") == "5");
  CHECK(quantity::after_plus_minus("+-5") == "5");
  CHECK_FALSE(quantity::after_plus_minus("+5").has_value());
  CHECK_FALSE(quantity::after_plus_minus("5±").has_value());
}

TEST_CASE("blanks of every kind are trimmed", "[quantity]") {
  CHECK(trimmed(" \t\r\n\u00A0\u2009\u202F80 N·m\u202F \r\n") == "80 N·m");
  CHECK(trimmed(" \u00A0 ").empty());
  CHECK(trimmed("\0"sv) == "\0"sv);
}

TEST_CASE("quoted text is safe to print and never cut inside a character", "[quantity]") {
  CHECK(quantity::quoted("80") == "\"80\"");
  CHECK(quantity::quoted("a\0b\x1b[2J\x7f"sv) == "\"a?b?[2J?\"");
  CHECK(quantity::quoted(std::string(40, 'a')) == '"' + std::string(40, 'a') + '"');
  CHECK(quantity::quoted(std::string(41, 'a')) == '"' + std::string(40, 'a') + "...\"");
  const std::string cut = quantity::quoted(std::string(39, 'a') + "°°");
  CHECK(cut == '"' + std::string(39, 'a') + "...\"");
}

TEST_CASE("no bytes make the number reader do anything but read or refuse", "[quantity]") {
  holds_always("any text gives a finite number or an input error", [](const std::string& text) {
    try {
      RC_ASSERT(std::isfinite(read_leading_number(text, text).value));
    } catch (const failure::InputError&) {
      RC_SUCCEED();
    }
  });
}

TEST_CASE("a value is written to the place of its uncertainty", "[quantity]") {
  // Source: JCGM 100:2008 (GUM) 7.2.6 and its example 100.021 47(70) g, from memory.
  CHECK(quantity::write_with_uncertainty(48.8123, 3.442) == "48.8 ±3.4");
  CHECK(quantity::write_with_uncertainty(80.0, 5.67) == "80.0 ±5.7");
  CHECK(quantity::write_with_uncertainty(80.4, 15.3) == "80 ±15");
  CHECK(quantity::write_with_uncertainty(1234.0, 124.0) == "1230 ±120");
  CHECK(quantity::write_with_uncertainty(0.11298, 0.0123) == "0.113 ±0.012");
  // The two digits are counted after rounding.
  CHECK(quantity::write_with_uncertainty(80.0, 9.96) == "80 ±10");
  CHECK(quantity::write_with_uncertainty(80.04, 0.996) == "80.0 ±1.0");
  CHECK(quantity::last_place_of(3.44) == -1);
  CHECK(quantity::last_place_of(9.96) == 0);
}

TEST_CASE("a part of an uncertainty keeps its two digits", "[quantity]") {
  // Beside 0.58 stands 1.0, never 1 (JCGM 100:2008 7.2.6, from memory).
  CHECK(quantity::write_uncertainty(1.0) == "1.0");
  CHECK(quantity::write_uncertainty(0.577) == "0.58");
  CHECK(quantity::write_uncertainty(0.3) == "0.30");
  CHECK(quantity::write_uncertainty(12.4) == "12");
  CHECK(quantity::write_uncertainty(134.0) == "130");
}

TEST_CASE("rounding keeps a value between its ends", "[quantity]") {
  // 80.5 ±16 would be 81, outside 80.25 to 80.75.
  CHECK(quantity::place_between(80.5, 16.3, 80.25, 80.75) == -1);
  CHECK(quantity::place_between(80.4, 16.3, 80.0, 81.0) == 0);
  CHECK(quantity::place_between(80.0, 3.4, 77.5, 82.5) == -1);
  holds_always("what is written lies between the ends, wherever they are a thousandth apart", [] {
    const double value = *rc::gen::inRange(1, 1'000'000) / 1000.0;
    const double low = value - value * *rc::gen::inRange(1, 100) / 1000.0;
    const double high = value + value * *rc::gen::inRange(1, 100) / 1000.0;
    const double uncertainty = value * *rc::gen::inRange(1, 400) / 1000.0;
    const int place = quantity::place_between(value, uncertainty, low, high);
    RC_ASSERT(place <= quantity::last_place_of(uncertainty));
    const double written = quantity::read_number(quantity::write_to_place(value, place));
    RC_ASSERT(written >= low * (1.0 - 1e-12));
    RC_ASSERT(written <= high * (1.0 + 1e-12));
  });
}

TEST_CASE("a span is written with the digits that show its width", "[quantity]") {
  CHECK(quantity::write_span(72.5, 77.5) == "72.5 to 77.5");
  CHECK(quantity::write_span(0.2301, 0.2349, 2) == "0.23 to 0.235");
  CHECK(quantity::write_span(1000.2, 1000.4) == "1000.2 to 1000.4");
  CHECK(quantity::write_span(0.12, 0.12, 2) == "0.12");
}

}  // namespace number_text_test
