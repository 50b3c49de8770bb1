#include "quantity/number_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/visible_text.h"

namespace quantity {
namespace {

constexpr std::size_t kMostDigits = 17;  // what a double can hold

// What counts as white space in people's text: typed, or printed by a word processor.
constexpr std::string_view kBlanks[] = {" ", "\t", "\n", "\r", "\u00A0", "\u2009", "\u202F"};
constexpr std::string_view kGroupMarks[] = {"'", "_", "\u2019"};

template <std::size_t N>
bool starts_with_one_of(std::string_view text, const std::string_view (&candidates)[N]) {
  return std::ranges::any_of(candidates,
                             [&](std::string_view one) { return text.starts_with(one); });
}

[[noreturn]] void refuse(std::string_view whole, const std::string& why) {
  throw failure::InputError(fmt::format("{}: {}", quoted(whole), why));
}

// The digits and marks at the front, up to the last digit: a mark with no digit behind it belongs
// to what follows ("80, ", "80."), and so do two points in a row ("90..100").
std::string_view number_at_front(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && (is_digit(text[end]) || text[end] == '.' || text[end] == ',') &&
         !text.substr(end).starts_with("..")) {
    ++end;
  }
  while (end > 0 && !is_digit(text[end - 1])) --end;
  return text.substr(0, end);
}

// One comma with exactly three digits behind it and one to three before (not a lone 0) may be a
// decimal comma or a thousands separator.
bool may_be_thousands(std::string_view number) {
  const auto comma = number.find(',');
  if (comma == std::string_view::npos) return false;
  const auto before = number.substr(0, comma);
  const auto after = number.substr(comma + 1);
  return after.size() == 3 && !before.empty() && before.size() <= 3 && before.front() != '0';
}

// What follows a number goes on with digits after a blank or another mark that groups thousands.
bool continues_as_group(std::string_view rest) {
  for (const auto mark : kGroupMarks) {
    if (rest.starts_with(mark)) {
      rest.remove_prefix(mark.size());
      return !rest.empty() && is_digit(rest.front());
    }
  }
  const auto after_blanks = trimmed(rest);
  return starts_with_one_of(rest, kBlanks) && !after_blanks.empty() &&
         is_digit(after_blanks.front());
}

// Leading zeros only place the decimal mark.
std::size_t significant_digits(std::string_view number) {
  const auto first = number.find_first_not_of("0.,");
  if (first == std::string_view::npos) return 0;
  return static_cast<std::size_t>(std::ranges::count_if(number.substr(first), is_digit));
}

}  // namespace

LeadingNumber read_leading_number(std::string_view text, std::string_view whole) {
  const std::string_view start = trimmed(text);
  if (start.empty()) refuse(whole, "no number here; write one such as 80 or 3.5");
  if (start.front() == '-' || start.starts_with("\u2212")) {
    refuse(whole, "a minus sign makes no sense here; write a positive number");
  }
  const std::string_view number = number_at_front(start);
  if (number.empty()) refuse(whole, "expected a number first, such as 80 or 3.5");

  const std::string_view rest = start.substr(number.size());
  const std::string_view after_blanks = trimmed(rest);
  const auto marks = std::ranges::count_if(number, [](char c) { return !is_digit(c); });
  if (marks > 1 || may_be_thousands(number) || continues_as_group(rest)) {
    refuse(whole,
           "the separator could mean thousands or decimals; write 1234 without one, or 1.234 with "
           "a point");
  }
  if (after_blanks.size() > 1 && (after_blanks[0] == 'e' || after_blanks[0] == 'E') &&
      (is_digit(after_blanks[1]) || after_blanks[1] == '-' || after_blanks[1] == '+')) {
    refuse(whole, "powers of ten are not taken; write the number out");
  }
  if (const auto digits = significant_digits(number); digits > kMostDigits) {
    refuse(whole, fmt::format("{} digits are more than can be kept exactly; expected at most {}",
                              digits, kMostDigits));
  }

  std::string plain(number);
  std::ranges::replace(plain, ',', '.');
  LeadingNumber result;
  result.digits = number;
  result.rest = after_blanks;
  const auto [stop, problem] =
      std::from_chars(plain.data(), plain.data() + plain.size(), result.value);
  if (problem != std::errc{} || stop != plain.data() + plain.size()) {
    refuse(whole, "expected a number such as 80 or 3.5");
  }
  // What rounds up to one digit more could not be read again from what is written of it.
  if (constexpr double kBeyond = 1e17; result.value >= kBeyond) {
    refuse(whole, "is more than can be kept exactly; expected less than 99999999999999990");
  }
  return result;
}

double read_number(std::string_view text) {
  const auto number = read_leading_number(text, text);
  if (!number.rest.empty()) {
    refuse(text, fmt::format("{} follows the number; expected nothing there", quoted(number.rest)));
  }
  return number.value;
}

int read_count(std::string_view text, int most) {
  const std::string_view digits = trimmed(text);
  int value = 0;
  const auto [stop, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (problem != std::errc{} || stop != digits.data() + digits.size() || value < 1 ||
      value > most || !is_digit(digits.front())) {
    refuse(text, fmt::format("expected a whole number from 1 to {}", most));
  }
  return value;
}

std::optional<std::string_view> after_plus_minus(std::string_view text) {
  for (const std::string_view sign : {"±", "+/-", "+-"}) {
    if (text.starts_with(sign)) return trimmed(text.substr(sign.size()));
  }
  return std::nullopt;
}

std::string write_exact(double value) {
  char buffer[400];  // the longest double without a power of ten is 327 characters
  const auto [end, problem] =
      std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  (void)problem;
  return {buffer, end};
}

std::string write_rounded(double value, int digits) {
  const std::string few_digits = fmt::format("{:.{}e}", value, digits - 1);
  double rounded = value;  // stays where rounding up would overflow
  std::from_chars(few_digits.data(), few_digits.data() + few_digits.size(), rounded);
  return write_exact(rounded == 0.0 ? 0.0 : rounded);  // no "-0"
}

int last_place_of(double uncertainty) {
  const std::string digits = fmt::format("{:.{}e}", uncertainty, kUncertaintyDigits - 1);
  int exponent = 0;
  const auto* sign = digits.data() + digits.find('e') + 1;
  std::from_chars(*sign == '+' ? sign + 1 : sign, digits.data() + digits.size(), exponent);
  return exponent - (kUncertaintyDigits - 1);
}

std::string write_to_place(double value, int place) {
  const double unit = std::pow(10.0, place);
  const double whole = std::round(value / unit);
  // Above the point the zeros come from the number, behind it from the format.
  const double rounded = place >= 0 ? whole * unit : value;
  return fmt::format("{:.{}f}", whole == 0.0 ? 0.0 : rounded, std::max(0, -place));
}

std::string write_uncertainty(double uncertainty) {
  return write_to_place(uncertainty, last_place_of(uncertainty));
}

int place_between(double value, double uncertainty, double low, double high) {
  constexpr int kMostFiner = 6;  // a value beside its own edge is told apart no further
  const int place = last_place_of(uncertainty);
  for (int finer = place; finer > place - kMostFiner; --finer) {
    const double unit = std::pow(10.0, finer);
    const double rounded = std::round(value / unit) * unit;
    if (rounded >= low && rounded <= high) return finer;
  }
  return place;
}

std::string write_with_uncertainty(double value, double uncertainty) {
  const int place = last_place_of(uncertainty);
  return fmt::format("{} ±{}", write_to_place(value, place), write_to_place(uncertainty, place));
}

std::string write_span(double low, double high, int digits) {
  auto from = write_rounded(low, digits);
  auto to = write_rounded(high, digits);
  while (from == to && low != high && digits < static_cast<int>(kMostDigits)) {
    ++digits;
    from = write_rounded(low, digits);
    to = write_rounded(high, digits);
  }
  return from == to ? to : fmt::format("{} to {}", from, to);
}

std::string quoted(std::string_view text) {
  constexpr std::size_t kLongest = 40;
  std::string shown;
  while (!text.empty()) {
    const auto character = first_character(text);
    if (shown.size() + character.bytes.size() > kLongest) {
      shown += "...";
      break;
    }
    shown += character.is_hidden ? "?" : character.bytes;
    text.remove_prefix(character.bytes.size());
  }
  return '"' + shown + '"';
}

std::string_view trimmed(std::string_view text) {
  // Most text has no blank at either end: no byte of a sign beyond ASCII, and none below '!'.
  const auto is_mark = [](char c) { return c > ' '; };
  if (text.empty() || (is_mark(text.front()) && is_mark(text.back()))) return text;
  const auto blank_where = [&](auto&& stands_there) {
    const auto* blank = std::ranges::find_if(kBlanks, stands_there);
    return blank == std::end(kBlanks) ? std::size_t{0} : blank->size();
  };
  const auto in_front = [&](std::string_view blank) { return text.starts_with(blank); };
  const auto at_back = [&](std::string_view blank) { return text.ends_with(blank); };
  while (const auto size = blank_where(in_front)) text.remove_prefix(size);
  while (const auto size = blank_where(at_back)) text.remove_suffix(size);
  return text;
}

}  // namespace quantity
