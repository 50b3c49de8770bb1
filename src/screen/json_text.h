#pragma once

#include <initializer_list>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "quantity/torque.h"
#include "screen/answer_format.h"

namespace screen {

// A number in N·m, or null.
[[nodiscard]] nlohmann::ordered_json newton_metres_or_null(
    const std::optional<quantity::Torque>& torque);

// A text, or null where it is empty.
[[nodiscard]] nlohmann::ordered_json text_or_null(const std::string& text);

// A list inside a document, written element by element: a long one takes the room of its text
// alone.
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

// The answer as the program prints it: what it is first, then the members of the document in their
// order, two blanks of indent, UTF-8 kept (broken bytes replaced, hidden characters as \uXXXX), a
// line break at the end.
[[nodiscard]] std::string json_text(const AnswerFormat& format, nlohmann::ordered_json document);

// What is no answer of a command, such as what a page asks for: the document alone.
[[nodiscard]] std::string json_of_no_answer(const nlohmann::ordered_json& document);

// An answer in one line, as JSON Lines have it.
[[nodiscard]] std::string json_line(const AnswerFormat& format, nlohmann::ordered_json document);

// An answer of these keys with the values written already, as json_text has it.
[[nodiscard]] std::string json_document(
    const AnswerFormat& format,
    std::initializer_list<std::pair<std::string_view, std::string>> members);

}  // namespace screen
