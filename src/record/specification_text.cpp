#include <fmt/format.h>

#include "quantity/angle_text.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/specification.h"
#include "record/specification_check.h"
#include "record/torque_target_text.h"

namespace record {
namespace {

using failure::InputError;
using quantity::Angle;
using quantity::is_digit;
using quantity::is_letter;
using quantity::quoted;
using quantity::trimmed;
using Form = TorqueTarget::Form;

constexpr std::size_t kLongestText = 400;  // bytes
constexpr std::size_t kMostSteps = 20;
constexpr double kMostDegrees = 1080.0;
constexpr const char* kTorqueBehindNewBolts =
    "expected a torque behind \"new bolts\", such as new bolts, 40 N·m; for fasteners that are "
    "renewed every time use --one-time";

bool is_decimal_comma(std::string_view text, std::size_t at) {
  return text[at] == ',' && at > 0 && is_digit(text[at - 1]) && at + 1 < text.size() &&
         is_digit(text[at + 1]);
}

bool is_then(std::string_view text, std::size_t at) {
  std::string_view from_here = text.substr(at);
  return (at == 0 || !is_letter(text[at - 1])) && take_word(from_here, "then");
}

// "40 N·m + 90°": a plus after something else begins a step, unless it is part of "+/-".
bool is_plus_of_next_step(std::string_view before, std::string_view from_plus) {
  return from_plus.starts_with('+') && !quantity::after_plus_minus(from_plus) &&
         !trimmed(before).empty();
}

std::vector<std::string_view> split_into_steps(std::string_view text) {
  std::vector<std::string_view> steps;
  std::size_t start = 0;
  const auto cut = [&](std::size_t end, std::size_t separator) {
    steps.push_back(trimmed(text.substr(start, end - start)));
    start = end + separator;
  };
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto before = text.substr(start, at - start);
    if (text[at] == ';' || (text[at] == ',' && !is_decimal_comma(text, at))) {
      cut(at, 1);
    } else if (is_then(text, at)) {
      constexpr std::size_t kThen = 4;
      if (!steps.empty() && trimmed(before).empty()) {
        start = at + kThen;  // ", then" is one separator
      } else {
        cut(at, kThen);
      }
      at += kThen - 1;
    } else if (is_plus_of_next_step(before, text.substr(at))) {
      cut(at, 0);
    }
  }
  cut(text.size(), 0);
  return steps;
}

Angle checked(Angle angle, std::string_view step) {
  if (angle <= Angle::degrees(0.0) || angle > Angle::degrees(kMostDegrees)) {
    throw InputError(
        fmt::format("{}: expected an angle above 0 and at most {}°", quoted(step), kMostDegrees));
  }
  return angle;
}

// One end of a bracketed window: bare numbers there are degrees.
quantity::LeadingAngle read_window_end(std::string_view text, std::string_view step) {
  if (const auto angle = quantity::read_leading_angle(text, step)) return *angle;
  const auto number = quantity::read_leading_number(text, step);
  return {Angle::degrees(number.value), number.rest};
}

// "(55-65)", "±5°" or "(±5°)", behind the angle itself.
AngleWindow read_window(Angle turn, std::string_view text, std::string_view step) {
  const bool in_brackets = text.starts_with('(') && text.ends_with(')');
  if (in_brackets) text = trimmed(text.substr(1, text.size() - 2));
  if (const auto amount_text = quantity::after_plus_minus(text)) {
    const Angle amount = quantity::read_angle(*amount_text);
    if (amount <= Angle::degrees(0.0) || amount >= turn) {
      throw InputError(fmt::format(
          "{}: expected a tolerance above zero and smaller than the angle itself", quoted(step)));
    }
    return {turn - amount, checked(turn + amount, step)};
  }
  if (in_brackets) {
    const auto least = read_window_end(text, step);
    if (const auto end = after_range_mark(least.rest)) {
      const auto most = read_window_end(*end, step);
      if (most.rest.empty()) {
        const AngleWindow window{checked(least.angle, step), checked(most.angle, step)};
        if (window.least <= turn && turn <= window.most && window.least < window.most) {
          return window;
        }
        throw InputError(fmt::format(
            "{}: the angle lies outside its window; expected the lower end, then the upper end, "
            "with the angle between",
            quoted(step)));
      }
    }
  }
  throw InputError(
      fmt::format("{}: expected the angle's window as (55-65) or ±5°, or nothing, "
                  "behind the angle",
                  quoted(step)));
}

AngleStep angle_step(const quantity::LeadingAngle& leading, std::string_view step) {
  AngleStep result{checked(leading.angle, step)};
  if (!leading.rest.empty()) result.window = read_window(result.turn, leading.rest, step);
  return result;
}

LoosenStep read_loosen_step(std::string_view text, std::string_view step) {
  if (text.empty()) return {};
  (void)take_word(text, "by");
  return {checked(quantity::read_angle(text), step)};
}

// "new bolts", "fit new bolts", "renew", "renew bolts"; the text is what stands behind "new", or
// behind "renew" where the noun may be left out.
RenewStep read_renew_step(std::string_view text, bool needs_noun, std::string_view step) {
  for (const std::string_view noun :
       {"bolts", "bolt", "fasteners", "fastener", "screws", "screw"}) {
    if (take_word(text, noun)) {
      needs_noun = false;
      break;
    }
  }
  if (needs_noun || !text.empty()) {
    throw InputError(fmt::format("{}: expected \"new bolts\" and nothing behind it", quoted(step)));
  }
  return {};
}

TighteningStep read_step(std::string_view step) {
  if (step.empty()) {
    throw InputError("nothing between two separators; expected a step such as 80 N·m or +90°");
  }
  std::string_view text = step;
  if (take_word(text, "renew")) return read_renew_step(text, false, step);
  (void)take_word(text, "fit");
  if (take_word(text, "new")) return read_renew_step(text, true, step);
  text = step;
  if (take_word(text, "loosen")) return read_loosen_step(text, step);
  if (take_word(text, "repeat")) return TorqueStep{read_torque_target(text), true};
  if (text.starts_with('+')) {
    const auto angle = quantity::read_leading_angle(text.substr(1), step);
    if (angle) return angle_step(*angle, step);
    throw InputError(fmt::format(
        "{}: expected an angle with ° or turn behind the plus, such as +60°; write a further "
        "torque without a plus, and a tolerance as ±5%, ±5 N·m or a range",
        quoted(step)));
  }
  if (is_digit(text.front())) {
    if (const auto angle = quantity::read_leading_angle(text, step)) {
      return angle_step(*angle, step);
    }
  }
  return TorqueStep{read_torque_target(text)};
}

// Where a target stands among others: its value, or the middle of its range.
quantity::Torque level_of(const TorqueTarget& target) {
  const double value =
      target.form == Form::Range ? (target.value + target.spread) / 2.0 : target.value;
  return quantity::torque_of(value, target.unit);
}

// The tolerance belongs to the step, not to the value: `80 N·m ±5%` and `80 N·m` have one value.
bool have_one_value(const TorqueTarget& a, const TorqueTarget& b) {
  const auto is_value = [](Form form) {
    return form == Form::Nominal || form == Form::Percent || form == Form::PlusMinus;
  };
  return a == b || (is_value(a.form) && is_value(b.form) && a.value == b.value && a.unit == b.unit);
}

// The target of a repeat, from the last step before it that has the same value.
TorqueTarget repeated_target(const TorqueTarget& asked, const std::vector<TighteningStep>& before) {
  for (auto step = before.rbegin(); step != before.rend(); ++step) {
    const auto* torque = std::get_if<TorqueStep>(&*step);
    if (torque != nullptr && have_one_value(asked, torque->target)) {
      return asked.form == Form::Nominal ? torque->target : asked;
    }
  }
  throw InputError(
      fmt::format("repeat {}: no step before it has this torque; expected the value "
                  "and unit of one that has",
                  write_exact(asked)));
}

// Adds a step where it makes sense behind those before it.
void append(std::vector<TighteningStep>& steps, TighteningStep step) {
  auto* torque = std::get_if<TorqueStep>(&step);
  if (steps.empty() && (torque == nullptr || torque->repeat)) {
    throw InputError(
        "expected a torque first, such as 40 N·m; an angle, a loosening, a repeat or new bolts "
        "can only follow one");
  }
  if (torque == nullptr && !steps.empty() && std::holds_alternative<RenewStep>(steps.back())) {
    throw InputError(kTorqueBehindNewBolts);
  }
  if (torque != nullptr) {
    if (torque->repeat) torque->target = repeated_target(torque->target, steps);
    const auto* last = steps.empty() ? nullptr : std::get_if<TorqueStep>(&steps.back());
    if (last != nullptr && level_of(torque->target) < level_of(last->target)) {
      if (const auto range = as_range(last->target, torque->target)) {
        throw InputError(fmt::format("{} and {}: for one torque between the two write {}",
                                     write_exact(last->target), write_exact(torque->target),
                                     *range));
      }
      throw InputError(fmt::format(
          "{} is lower than {} just before it and would do nothing; put the steps in rising order, "
          "add \"loosen\" between them, or leave out a figure that only converts the other",
          write_exact(torque->target), write_exact(last->target)));
    }
  }
  steps.push_back(step);
}

void check_length(std::string_view text) {
  if (text.size() > kLongestText) {
    throw InputError(
        fmt::format("{}: {} bytes are more than a specification may have; expected at "
                    "most {}",
                    quoted(text), text.size(), kLongestText));
  }
}

}  // namespace

Specification read_specification(std::string_view text) {
  check_length(text);
  if (trimmed(text).empty()) {
    throw InputError("no specification here; expected one such as 80 N·m or 60 N·m, +60°");
  }
  const auto step_texts = split_into_steps(text);
  if (step_texts.size() > kMostSteps) {
    throw InputError(
        fmt::format("{}: {} steps are more than a specification may have; expected "
                    "at most {}",
                    quoted(text), step_texts.size(), kMostSteps));
  }
  Specification specification;
  for (const auto step_text : step_texts) {
    try {
      append(specification.steps, read_step(step_text));
    } catch (const InputError& error) {
      if (step_texts.size() == 1) throw;
      throw InputError(fmt::format("step {}: {}", specification.steps.size() + 1, error.what()));
    }
  }
  if (std::holds_alternative<RenewStep>(specification.steps.back())) {
    throw InputError(kTorqueBehindNewBolts);
  }
  check_length(write_exact(specification));  // so that what was written can be read again
  return specification;
}

}  // namespace record
