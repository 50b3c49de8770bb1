#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace quantity {

// A number at the front of a text, and what follows it.
struct LeadingNumber {
  double value = 0.0;
  std::string_view digits;  // the number as typed
  std::string_view rest;    // what follows, without the spaces between
};

// Reads the number at the front of `text`: digits with at most one decimal mark, '.' or ','
// (`3.5`, `3,5`, `.5`). Two points in a row are no part of it (`90..100`). It never looks at the
// locale. failure::InputError for no digits, a sign, "nan" or "inf", a power of ten (1e2), more
// than 17 significant digits, and anything that may be a thousands separator (`1,234`, `1 234`,
// `1'234`, `1.234,5`), since guessing wrong would be a factor of 1000. `whole` is the text to quote
// in the message, of which `text` is the part being read.
[[nodiscard]] LeadingNumber read_leading_number(std::string_view text, std::string_view whole);

// The whole text is one such number.
[[nodiscard]] double read_number(std::string_view text);

// A whole number from 1 to `most`, digits only.
[[nodiscard]] int read_count(std::string_view text, int most);

// What follows a plus-minus sign ("±", "+/-", "+-") at the front of the text, without the spaces
// between; nothing where there is none.
[[nodiscard]] std::optional<std::string_view> after_plus_minus(std::string_view text);

// The shortest text that reads back to exactly this value; no power of ten, no locale. Only a
// value from 0 to below 1e17 reads back: people's text has no sign and 17 digits at most.
[[nodiscard]] std::string write_exact(double value);

// Four significant digits at most (or another number of them), for people; trailing zeros dropped:
// 94.91, 70, 0.113, 12350 for 12345.6.
[[nodiscard]] std::string write_rounded(double value, int digits = 4);

// An uncertainty has two digits that mean anything (JCGM 100:2008 7.2.6, from memory).
inline constexpr int kUncertaintyDigits = 2;

// The power of ten of an uncertainty's second significant digit, once it is rounded to two: -1 for
// 3.44 (3.4), 0 for 9.96 (10). The uncertainty is above zero.
[[nodiscard]] int last_place_of(double uncertainty);

// Rounded to this power of ten and written to it, trailing zeros and all: 48.8 for 48.81 and
// -1, 80.0 for 80 and -1, 120 for 124 and 1. A value is written to the place of its uncertainty
// (JCGM 100:2008 7.2.6).
[[nodiscard]] std::string write_to_place(double value, int place);

// "3.4", "1.0", "0.58": an uncertainty, or a part of one, above zero with its two digits.
[[nodiscard]] std::string write_uncertainty(double uncertainty);

// The place to which a value from `low` to `high` is written beside its uncertainty: that of the
// uncertainty's second digit, or as many finer ones as it takes to stay between the two when it is
// rounded: -1 for 80.5 from 80.25 to 80.75, whatever the uncertainty.
[[nodiscard]] int place_between(double value, double uncertainty, double low, double high);

// "48.8 ±3.4": both to the place of the uncertainty's second digit.
[[nodiscard]] std::string write_with_uncertainty(double value, double uncertainty);

// "0.23 to 0.4": both rounded to `digits`, or to as many more as it takes to tell two different
// values apart. One value where they are the same.
[[nodiscard]] std::string write_span(double low, double high, int digits = 4);

// Text shown inside quotes in a message: hidden characters (visible_text.h) become '?', and
// what is longer than 40 bytes is cut at a character border with "...".
[[nodiscard]] std::string quoted(std::string_view text);

// Without blanks at either end; the no-break and thin spaces of printed text are blanks too.
[[nodiscard]] std::string_view trimmed(std::string_view text);

}  // namespace quantity
