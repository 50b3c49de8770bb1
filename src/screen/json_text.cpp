#include "screen/json_text.h"

#include <nlohmann/json.hpp>

namespace screen {

nlohmann::ordered_json newton_metres_or_null(const std::optional<quantity::Torque>& torque) {
  if (!torque) return nullptr;
  return torque->in_newton_metres();
}

std::string json_text(const nlohmann::ordered_json& document) {
  return document.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

}  // namespace screen
