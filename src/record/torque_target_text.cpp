#include "record/torque_target_text.h"

#include <fmt/format.h>

#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace record {
namespace {

using failure::InputError;
using quantity::quoted;
using quantity::read_leading_number;
using quantity::trimmed;
using Form = TorqueTarget::Form;

struct LimitWord {
  std::string_view word;
  Form form;
};

// Words for a one-sided target; they stand before the torque or behind it.
constexpr LimitWord kLimitWords[] = {
    {"min.", Form::Minimum},     {"min", Form::Minimum},     {"minimum", Form::Minimum},
    {"at least", Form::Minimum}, {"≥", Form::Minimum},       {"max.", Form::Maximum},
    {"max", Form::Maximum},      {"maximum", Form::Maximum}, {"at most", Form::Maximum},
    {"up to", Form::Maximum},    {"≤", Form::Maximum},
};

// The hyphens, dashes and dots with which ranges are printed.
constexpr std::string_view kRangeMarks[] = {"...",    "..",     "\u2026", "-",      "\u2010",
                                            "\u2011", "\u2012", "\u2013", "\u2014", "\u2212"};

bool take_last_word(std::string_view& text, std::string_view word) {
  if (text.size() <= word.size()) return false;
  const auto before = text.substr(0, text.size() - word.size());
  if (!quantity::starts_with_in_any_case(text.substr(before.size()), word)) return false;
  if (trimmed(before).size() == before.size()) return false;  // no blank between
  text = trimmed(before);
  return true;
}

std::optional<Form> take_limit(std::string_view& text) {
  for (const auto& [word, form] : kLimitWords) {
    if (take_word(text, word) || take_last_word(text, word)) return form;
  }
  return std::nullopt;
}

// A second number, set off from the first by a plus-minus sign or a range mark.
struct SecondNumber {
  bool ends_range = false;
  std::string_view before;  // what stands before the sign
  std::string_view text;    // the number and what follows
};

std::optional<SecondNumber> find_second_number(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto from_here = text.substr(at);
    const auto before = trimmed(text.substr(0, at));
    if (const auto amount = quantity::after_plus_minus(from_here)) {
      return SecondNumber{false, before, *amount};
    }
    // A hyphen may also join the parts of a unit, so only a number makes it a range.
    const auto end = after_range_mark(from_here);
    if (end && !end->empty() && (quantity::is_digit(end->front()) || end->front() == '.')) {
      return SecondNumber{true, before, *end};
    }
  }
  return std::nullopt;
}

// The unit may stand behind the first number, the second, or both.
quantity::TorqueUnit shared_unit(std::string_view first, std::string_view second,
                                 std::string_view whole) {
  if (first.empty() || second.empty()) {
    return quantity::read_required_unit(first.empty() ? second : first, whole);
  }
  const auto unit = quantity::read_required_unit(first, whole);
  if (quantity::read_required_unit(second, whole) != unit) {
    throw InputError(fmt::format("{}: two units in one torque; expected the same one on both sides",
                                 quoted(whole)));
  }
  return unit;
}

TorqueTarget read_two_numbers(double value, const SecondNumber& sign, std::string_view whole) {
  const auto second = read_leading_number(sign.text, whole);
  const bool percent = !sign.ends_range && second.rest.starts_with('%');
  const auto unit_text = percent ? trimmed(second.rest.substr(1)) : second.rest;
  const Form form = sign.ends_range ? Form::Range : percent ? Form::Percent : Form::PlusMinus;
  return {form, value, second.value, shared_unit(sign.before, unit_text, whole)};
}

void check(const TorqueTarget& target, std::string_view whole) {
  const auto refuse_unless = [&](bool fine, std::string_view expected) {
    if (!fine) throw InputError(fmt::format("{}: expected {}", quoted(whole), expected));
  };
  refuse_unless(target.value > 0.0, "a torque above zero");
  if (target.form == Form::Percent) {
    refuse_unless(target.spread > 0.0 && target.spread < 100.0,
                  "a tolerance above 0% and below 100%");
  } else if (target.form == Form::PlusMinus) {
    refuse_unless(target.spread > 0.0 && target.spread < target.value,
                  "a tolerance above zero and smaller than the torque itself");
  } else if (target.form == Form::Range) {
    refuse_unless(target.spread > target.value, "the lower end of the range first");
  }
}

}  // namespace

bool take_word(std::string_view& text, std::string_view word) {
  if (!quantity::starts_with_in_any_case(text, word)) return false;
  const auto rest = text.substr(word.size());
  const char next = rest.empty() ? ' ' : rest.front();
  if (quantity::is_letter(next)) return false;
  if (word.ends_with('.') && quantity::is_digit(next)) return false;  // "min.5": a decimal point
  text = trimmed(rest);
  return true;
}

std::optional<std::string_view> after_range_mark(std::string_view text) {
  for (const auto mark : kRangeMarks) {
    if (text.starts_with(mark)) return trimmed(text.substr(mark.size()));
  }
  if (take_word(text, "to")) return text;
  return std::nullopt;
}

TorqueTarget read_torque_target(std::string_view whole) {
  std::string_view text = trimmed(whole);
  if (text.find_first_of("()") != std::string_view::npos) {
    throw InputError(fmt::format(
        "{}: expected a torque without brackets; leave out a figure that only converts another",
        quoted(whole)));
  }
  const auto limit = take_limit(text);
  const auto first = read_leading_number(text, whole);
  const auto second = find_second_number(first.rest);
  if (limit && second) {
    throw InputError(fmt::format(
        "{}: a minimum or maximum has no tolerance; expected one torque, or a range such as "
        "90-100 N·m",
        quoted(whole)));
  }
  const TorqueTarget target = second
                                  ? read_two_numbers(first.value, *second, whole)
                                  : TorqueTarget{limit.value_or(Form::Nominal), first.value, 0.0,
                                                 quantity::read_required_unit(first.rest, whole)};
  check(target, whole);
  return target;
}

}  // namespace record
