#include "record/typed_text.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>

#include "failure/failure.h"
#include "fastener/grade.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "quantity/visible_text.h"

namespace record {

bool is_one_line(std::string_view text) {
  if (std::ranges::all_of(text, quantity::is_plain)) return true;  // nearly every text
  const auto* at = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  auto left = static_cast<utf8proc_ssize_t>(text.size());
  while (left > 0) {
    utf8proc_int32_t point = 0;
    const auto used = utf8proc_iterate(at, left, &point);
    if (used <= 0 || utf8proc_category(point) == UTF8PROC_CATEGORY_CC) return false;
    at += used;
    left -= used;
  }
  return true;
}

std::string read_optional_text(std::string_view text, std::string_view what, std::size_t most) {
  const std::string_view label = quantity::trimmed(text);
  if (label.size() > most) {
    throw failure::InputError(
        fmt::format("{}: {} bytes are too long; expected at most {}", what, label.size(), most));
  }
  if (!is_one_line(label)) {
    throw failure::InputError(
        fmt::format("{}: {} holds {}, which cannot be kept; expected one line of UTF-8 text", what,
                    quantity::quoted(label), quantity::first_hidden_in(label)));
  }
  if (const auto hidden = quantity::first_hidden_in(label); !hidden.empty()) {
    throw failure::InputError(
        fmt::format("{}: {} holds {}, which is not seen and may make it read as something else; "
                    "type it again without",
                    what, quantity::quoted(label), hidden));
  }
  return std::string(label);
}

std::string read_text(std::string_view text, std::string_view what, std::size_t most) {
  auto label = read_optional_text(text, what, most);
  if (label.empty()) {
    throw failure::InputError(fmt::format("{}: nothing written; expected some text", what));
  }
  return label;
}

fastener::Condition read_condition_or_refuse(std::string_view text) {
  const auto condition = fastener::read_condition(text);
  if (!condition) {
    throw failure::InputError(fmt::format(
        "--condition {} is not one of dry, oiled, threadlocker, anti-seize, as-received",
        quantity::quoted(text)));
  }
  return *condition;
}

quantity::StatedTorque read_positive_torque(std::string_view text, std::string_view option) {
  const auto stated = quantity::read_torque(text);
  if (stated.value <= 0.0) {
    throw failure::InputError(
        fmt::format("{} {}: expected a torque above zero", option, quantity::quoted(text)));
  }
  return stated;
}

quantity::Percent read_percent_below_half(std::string_view text, std::string_view option) {
  constexpr double kHalf = 50.0;
  const auto percent = quantity::read_percent(text);
  if (percent.in_percent() >= kHalf) {
    throw failure::InputError(fmt::format("{} {}: expected a percentage below {}%, such as 4%",
                                          option, quantity::quoted(text), kHalf));
  }
  return percent;
}

std::string read_grade_or_text(std::string_view text) {
  const auto grade = fastener::read_grade(text);
  return grade ? std::string(fastener::name_of(*grade)) : read_text(text, "--grade", 40);
}

TypedSetting read_setting(std::string_view text) {
  const auto number = quantity::read_leading_number(quantity::trimmed(text), text);
  const auto unit = quantity::read_torque_unit(number.rest);
  if ((!number.rest.empty() && !unit) || number.value <= 0.0) {
    throw failure::InputError(
        fmt::format("{}: expected a setting above zero on the wrench's own scale, such as 58",
                    quantity::quoted(text)));
  }
  return {number.value, unit};
}

}  // namespace record
