#pragma once

#include <initializer_list>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "quantity/torque.h"

namespace screen {

// A number in N·m, or null.
[[nodiscard]] nlohmann::ordered_json newton_metres_or_null(
    const std::optional<quantity::Torque>& torque);

// A text, or null where it is empty.
[[nodiscard]] nlohmann::ordered_json text_or_null(const std::string& text);

// A list inside a document, written element by element: a long one takes the room of its text alone.
class JsonList {
 public:
  void add(const nlohmann::ordered_json& element);

  // As the value of one of the document's own keys; the list is empty then.
  [[nodiscard]] std::string take();

 private:
  std::string text_;
};

// The value as that of one of a document's own keys.
[[nodiscard]] std::string json_value(const nlohmann::ordered_json& value);

// A document of these keys with the values written already, as json_text has it.
[[nodiscard]] std::string json_document(
    std::initializer_list<std::pair<std::string_view, std::string>> members);

// The document as the program prints it: two blanks of indent, keys in the order given, UTF-8 kept
// (broken bytes replaced, hidden characters as \uXXXX), a line break at the end.
[[nodiscard]] std::string json_text(const nlohmann::ordered_json& document);

}  // namespace screen
