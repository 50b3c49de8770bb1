#include "screen/json_text.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "quantity/visible_text.h"

namespace screen {
namespace {

constexpr int kJsonIndent = 2;
constexpr int kOneLine = -1;

using AnswerJson = nlohmann::ordered_json;

std::string dumped(const AnswerJson& value, int indent = kJsonIndent) {
  return value.dump(indent, ' ', false, AnswerJson::error_handler_t::replace);
}

// Set in by so many steps, the first line apart. No string of a JSON text holds a line end.
std::string set_in(const std::string& json, int steps) {
  std::string text;
  text.reserve(json.size());
  for (const char c : json) {
    text += c;
    if (c == '\n') text.append(static_cast<std::size_t>(steps * kJsonIndent), ' ');
  }
  return text;
}

std::string named_text(const AnswerFormat& format, AnswerJson document, int indent) {
  AnswerJson answer = {{"format", format.name}, {"version", format.version}};
  for (auto& [name, value] : document.get_ref<AnswerJson::object_t&>()) {
    answer.emplace(name, std::move(value));
  }
  return quantity::visible_json(dumped(answer, indent)) + '\n';
}

}  // namespace

nlohmann::ordered_json newton_metres_or_null(const std::optional<quantity::Torque>& torque) {
  if (!torque) return nullptr;
  return torque->in_newton_metres();
}

nlohmann::ordered_json text_or_null(const std::string& text) {
  if (text.empty()) return nullptr;
  return text;
}

std::string json_text(const AnswerFormat& format, AnswerJson document) {
  return named_text(format, std::move(document), kJsonIndent);
}

std::string json_of_no_answer(const AnswerJson& document) {
  return quantity::visible_json(dumped(document)) + '\n';
}

std::string json_line(const AnswerFormat& format, AnswerJson document) {
  return named_text(format, std::move(document), kOneLine);
}

void JsonList::add(const nlohmann::ordered_json& element) {
  text_ += text_.empty() ? "[\n    " : ",\n    ";
  text_ += quantity::visible_json(set_in(dumped(element), 2));
}

std::string JsonList::take() { return text_.empty() ? "[]" : std::exchange(text_, {}) + "\n  ]"; }

std::string json_value(const nlohmann::ordered_json& value) {
  return quantity::visible_json(set_in(dumped(value), 1));
}

std::string json_document(const AnswerFormat& format,
                          std::initializer_list<std::pair<std::string_view, std::string>> members) {
  auto text =
      fmt::format("{{\n  \"format\": \"{}\",\n  \"version\": {}", format.name, format.version);
  for (const auto& [key, value] : members) text += fmt::format(",\n  \"{}\": {}", key, value);
  return text + "\n}\n";
}

}  // namespace screen
