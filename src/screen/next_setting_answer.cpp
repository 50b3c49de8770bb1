#include "screen/next_setting_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "quantity/stated_torque.h"
#include "screen/json_text.h"

namespace screen {

std::string next_setting_text(const finding::Proposal& proposal, quantity::TorqueUnit scale,
                              const words::Page& page) {
  if (const auto* next = std::get_if<finding::NextSetting>(&proposal)) {
    return words::wrapped(
        fmt::format("next {}: {}",
                    quantity::write_exact(quantity::StatedTorque{next->setting, scale}), next->why),
        page.width, "", "  ");
  }
  return words::wrapped(fmt::format("stop: {}", std::get<finding::Stop>(proposal).text), page.width,
                        "", "  ");
}

std::string next_setting_json(const finding::Proposal& proposal, quantity::TorqueUnit scale) {
  nlohmann::ordered_json document = {
      {"next_setting", nullptr}, {"unit", quantity::name_of(scale)}, {"reason", nullptr}};
  if (const auto* next = std::get_if<finding::NextSetting>(&proposal)) {
    document["next_setting"] = next->setting;
    document["reason"] = next->why;
  } else {
    document["reason"] = std::get<finding::Stop>(proposal).text;
  }
  return json_text(kNextSettingFormat, std::move(document));
}

}  // namespace screen
