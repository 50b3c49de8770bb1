#include "screen/json_text.h"

#include <nlohmann/json.hpp>

#include "quantity/visible_text.h"

namespace screen {
namespace {

constexpr int kJsonIndent = 2;

std::string dumped(const nlohmann::ordered_json& value) {
  return value.dump(kJsonIndent, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
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

}  // namespace

nlohmann::ordered_json newton_metres_or_null(const std::optional<quantity::Torque>& torque) {
  if (!torque) return nullptr;
  return torque->in_newton_metres();
}

nlohmann::ordered_json text_or_null(const std::string& text) {
  if (text.empty()) return nullptr;
  return text;
}

std::string json_text(const nlohmann::ordered_json& document) {
  return quantity::visible_json(dumped(document)) + '\n';
}

void JsonList::add(const nlohmann::ordered_json& element) {
  text_ += text_.empty() ? "[\n    " : ",\n    ";
  text_ += quantity::visible_json(set_in(dumped(element), 2));
}

std::string JsonList::take() {
  return text_.empty() ? "[]" : std::exchange(text_, {}) + "\n  ]";
}

std::string json_value(const nlohmann::ordered_json& value) {
  return quantity::visible_json(set_in(dumped(value), 1));
}

std::string json_document(
    std::initializer_list<std::pair<std::string_view, std::string>> members) {
  std::string text;
  for (const auto& [key, value] : members) {
    text += text.empty() ? "{\n  \"" : ",\n  \"";
    text += key;
    text += "\": ";
    text += value;
  }
  return text + "\n}\n";
}

}  // namespace screen
