#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "quantity/torque.h"
#include "screen/answer_format.h"

namespace screen {

// A number in N·m, or null.
[[nodiscard]] nlohmann::ordered_json newton_metres_or_null(
    const std::optional<quantity::Torque>& torque);

// The answer as the program prints it: what it is first, then the members of the document in their
// order, two blanks of indent, UTF-8 kept (broken bytes replaced, hidden characters as \uXXXX), a
// line break at the end.
[[nodiscard]] std::string json_text(const AnswerFormat& format, nlohmann::ordered_json document);

// The same in one line, as JSON Lines have it.
[[nodiscard]] std::string json_line(const AnswerFormat& format, nlohmann::ordered_json document);

}  // namespace screen
