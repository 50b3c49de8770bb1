#include "screen/json_text.h"

#include <nlohmann/json.hpp>

#include "quantity/visible_text.h"

namespace screen {

nlohmann::ordered_json newton_metres_or_null(const std::optional<quantity::Torque>& torque) {
  if (!torque) return nullptr;
  return torque->in_newton_metres();
}

nlohmann::ordered_json text_or_null(const std::string& text) {
  if (text.empty()) return nullptr;
  return text;
}

std::string json_text(const nlohmann::ordered_json& document) {
  const auto text = document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
  return quantity::visible_json(text) + '\n';
}

}  // namespace screen
