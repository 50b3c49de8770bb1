#include "screen/json_text.h"

#include <nlohmann/json.hpp>
#include <utility>

#include "quantity/visible_text.h"

namespace screen {
namespace {

using AnswerJson = nlohmann::ordered_json;

std::string named_text(const AnswerFormat& format, AnswerJson document, int indent) {
  AnswerJson answer = {{"format", format.name}, {"version", format.version}};
  for (auto& [name, value] : document.get_ref<AnswerJson::object_t&>()) {
    answer.emplace(name, std::move(value));
  }
  return quantity::visible_json(
             answer.dump(indent, ' ', false, AnswerJson::error_handler_t::replace)) +
         '\n';
}

}  // namespace

nlohmann::ordered_json newton_metres_or_null(const std::optional<quantity::Torque>& torque) {
  if (!torque) return nullptr;
  return torque->in_newton_metres();
}

std::string json_text(const AnswerFormat& format, nlohmann::ordered_json document) {
  constexpr int kIndent = 2;
  return named_text(format, std::move(document), kIndent);
}

std::string json_line(const AnswerFormat& format, nlohmann::ordered_json document) {
  constexpr int kOneLine = -1;
  return named_text(format, std::move(document), kOneLine);
}

}  // namespace screen
