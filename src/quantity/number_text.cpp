#include "quantity/number_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "quantity/input_error.h"

namespace quantity {
namespace {

constexpr std::size_t kMostDigits = 17;  // what a double can hold

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(char c) { return c == ' ' || c == '\t'; }

[[noreturn]] void refuse(std::string_view whole, const std::string& why) {
  throw InputError(fmt::format("{}: {}", quoted(whole), why));
}

// One comma with exactly three digits behind it and one to three before (not a lone 0) may be a
// decimal comma or a thousands separator.
bool may_be_thousands(std::string_view number, std::size_t comma) {
  const auto before = number.substr(0, comma);
  const auto after = number.substr(comma + 1);
  return after.size() == 3 && !before.empty() && before.size() <= 3 && before.front() != '0';
}

}  // namespace

LeadingNumber read_leading_number(std::string_view text, std::string_view whole) {
  const std::string_view start = trimmed(text);
  if (start.empty()) refuse(whole, "no number here; write one such as 80 or 3.5");
  if (start.front() == '-' || start.starts_with("\u2212")) {
    refuse(whole, "a minus sign makes no sense here; write a positive number");
  }
  std::size_t end = 0;
  while (end < start.size() && (is_digit(start[end]) || start[end] == '.' || start[end] == ',')) {
    ++end;
  }
  // A mark with no digit behind it belongs to what follows: "80, " or "80.".
  while (end > 0 && !is_digit(start[end - 1])) --end;
  const std::string_view number = start.substr(0, end);
  if (number.empty()) refuse(whole, "expected a number first, such as 80 or 3.5");

  const auto marks = std::ranges::count_if(number, [](char c) { return !is_digit(c); });
  const auto comma = number.find(',');
  const std::string_view rest = start.substr(end);
  const bool grouped_by_apostrophe =
      (rest.starts_with('\'') || rest.starts_with('_') || rest.starts_with("\u2019")) &&
      rest.size() > 1 && is_digit(rest.back());
  const std::string_view after_blanks = trimmed(rest);
  const bool grouped_by_blank = !rest.empty() && !after_blanks.empty() &&
                                (is_blank(rest.front()) || rest.starts_with("\u00A0")) &&
                                is_digit(after_blanks.front());
  if (marks > 1 || grouped_by_apostrophe || grouped_by_blank ||
      (comma != std::string_view::npos && may_be_thousands(number, comma))) {
    refuse(whole,
           "the separator could mean thousands or decimals; write 1234 without one, or 1.234 with "
           "a point");
  }
  if (after_blanks.size() > 1 && (after_blanks[0] == 'e' || after_blanks[0] == 'E') &&
      (is_digit(after_blanks[1]) || after_blanks[1] == '-' || after_blanks[1] == '+')) {
    refuse(whole, "powers of ten are not taken; write the number out");
  }
  if (number.size() - static_cast<std::size_t>(marks) > kMostDigits) {
    refuse(whole, fmt::format("{} digits are more than can be kept exactly; expected at most {}",
                              number.size() - static_cast<std::size_t>(marks), kMostDigits));
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

std::string write_exact(double value) {
  char buffer[400];  // the longest double without a power of ten is 327 characters
  const auto [end, problem] =
      std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  (void)problem;
  return {buffer, end};
}

std::string write_rounded(double value) {
  if (value == 0.0) return "0";
  const int magnitude = static_cast<int>(std::floor(std::log10(std::fabs(value))));
  const int decimals = std::clamp(3 - magnitude, 0, 9);
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

std::string quoted(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::string shown;
  for (const char c : text.substr(0, kLongest)) {
    shown += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? '?' : c;
  }
  if (text.size() > kLongest) {
    while (!shown.empty() && (static_cast<unsigned char>(shown.back()) & 0xC0U) == 0x80U) {
      shown.pop_back();
    }
    if (!shown.empty() && static_cast<unsigned char>(shown.back()) >= 0xC0U) shown.pop_back();
    shown += "...";
  }
  return '"' + shown + '"';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (is_blank(text.front()) || text.front() == '\n')) text.remove_prefix(1);
  while (!text.empty() && (is_blank(text.back()) || text.back() == '\n')) text.remove_suffix(1);
  return text;
}

}  // namespace quantity
