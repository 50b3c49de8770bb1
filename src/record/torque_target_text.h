#pragma once

#include <optional>
#include <string_view>

#include "record/specification.h"

namespace record {

// Reads one torque target of a specification, with nothing before or after it: "80 N·m",
// "80 N·m ±5%", "95 ±5 N·m", "90-100 N·m", "90 N·m to 100 N·m", "min 90 N·m", "12 N·m max.".
// InputError for a missing unit, two different units, a torque that is not above zero, a range
// that does not rise, a percentage outside 0 to 100 and an amount not smaller than the torque.
[[nodiscard]] TorqueTarget read_torque_target(std::string_view text);

// Takes a word, given in lower case, and the blanks behind it off the front of the text; the word
// must end there. False, and the text as it was, where it does not stand there.
[[nodiscard]] bool take_word(std::string_view& text, std::string_view word);

// What follows the mark between the ends of a range ("-" or a dash, "..", "to") at the front of
// the text, without the blanks between; nothing where there is none.
[[nodiscard]] std::optional<std::string_view> after_range_mark(std::string_view text);

}  // namespace record
