#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "fastener/condition.h"
#include "quantity/percent.h"
#include "quantity/stated_torque.h"

namespace record {

// A line of free text as typed (a name, a part, a note), without blanks at its ends. InputError,
// naming `what` it is for, where nothing is left, where it is longer than `most` bytes, or where it
// holds hidden characters (quantity/visible_text.h) or is not UTF-8.
[[nodiscard]] std::string read_text(std::string_view text, std::string_view what,
                                    std::size_t most = 400);

// UTF-8 without control characters: what was kept before entry refused all that is hidden.
[[nodiscard]] bool is_one_line(std::string_view text);

// The same, but it may be empty.
[[nodiscard]] std::string read_optional_text(std::string_view text, std::string_view what,
                                             std::size_t most = 400);

// One of the conditions, for --condition. InputError naming them all otherwise.
[[nodiscard]] fastener::Condition read_condition_or_refuse(std::string_view text);

// A torque above zero, naming the option it was given for. InputError otherwise.
[[nodiscard]] quantity::StatedTorque read_positive_torque(std::string_view text,
                                                          std::string_view option);

// A percentage above 0 and below 50, naming the option it was given for: a deviation or an error
// of half the torque or more would leave nothing to say. InputError otherwise.
[[nodiscard]] quantity::Percent read_percent_below_half(std::string_view text,
                                                        std::string_view option);

// A grade as typed: its canonical name where its strength is known, else the text itself.
[[nodiscard]] std::string read_grade_or_text(std::string_view text);

// A setting on a wrench's own scale. A unit need not stand behind it; where one does it has to be
// that of the scale (setting_on in wrench.h).
struct TypedSetting {
  double value = 0.0;
  std::optional<quantity::TorqueUnit> unit = std::nullopt;
};

// Reads "58" or "58 N·m". InputError where it is not above zero or something else stands behind it.
[[nodiscard]] TypedSetting read_setting(std::string_view text);

}  // namespace record
