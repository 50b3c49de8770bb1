#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "quantity/torque.h"

namespace screen {

// A number in N·m, or null.
[[nodiscard]] nlohmann::ordered_json newton_metres_or_null(
    const std::optional<quantity::Torque>& torque);

// A text, or null where it is empty.
[[nodiscard]] nlohmann::ordered_json text_or_null(const std::string& text);

// The document as the program prints it: two blanks of indent, keys in the order given, UTF-8 kept
// (broken bytes replaced, hidden characters as \uXXXX), a line break at the end.
[[nodiscard]] std::string json_text(const nlohmann::ordered_json& document);

}  // namespace screen
