#include "screen/adapter_answer.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/number_text.h"
#include "screen/json_text.h"
#include "words/joint_heading.h"

namespace screen {
namespace {

constexpr const char* kFormula = "S = T L/(L + E cos a)";

constexpr std::array kLimits = {
    "only for a wrench that feels the moment at its square drive, pulled square to it at the "
    "middle "
    "of the grip; a second hand or a pipe on the handle makes it wrong",
    "the sources give straight on, square to the wrench (no change) and folded back (minus), and "
    "agree; the angles between are the same statics",
    "the setting has to lie in the wrench's usable range; round it to the graduation there. "
    "Printed "
    "examples round to the whole unit: 117 for 117.4 in·lbf",
};

std::string degrees_text(const fastener::Adapter& adapter) {
  const double degrees = adapter.angle.in_degrees();
  return fmt::format("{}{}°", degrees < 0.0 ? "-" : "",
                     quantity::write_rounded(std::fabs(degrees)));
}

}  // namespace

std::string adapter_text(const quantity::StatedTorque& wanted, const fastener::Adapter& adapter,
                         const words::Page& page) {
  const auto setting = fastener::wrench_setting(wanted.torque(), adapter);
  const auto length = quantity::write_rounded(adapter.wrench_length.in_millimetres());
  const auto extension = quantity::write_rounded(adapter.adapter_length.in_millimetres());
  auto answer = words::wrapped("set the wrench to " + words::side_by_side(setting, wanted.unit),
                               page.width, "", "  ");
  answer.pop_back();
  std::string text = words::strong(answer, page) + '\n';
  text +=
      words::wrapped(fmt::format("for {} on the fastener, which is {:.4g} times the setting",
                                 quantity::write_exact(wanted), fastener::torque_ratio(adapter)),
                     page.width, "  ", "    ");
  text += words::wrapped(
      fmt::format("{} = {} x {} mm/({} mm + {} mm x cos {}) = {}", kFormula,
                  quantity::write_exact(wanted), length, length, extension, degrees_text(adapter),
                  quantity::write_rounded(setting, wanted.unit)),
      page.width, "  ", "    ");
  for (const auto* limit : kLimits) text += words::wrapped(limit, page.width, "  - ", "    ");
  return text;
}

std::string adapter_json(const quantity::StatedTorque& wanted, const fastener::Adapter& adapter) {
  const auto setting = fastener::wrench_setting(wanted.torque(), adapter);
  return json_text(kAdapterFormat, {{"setting", quantity::in_unit(setting, wanted.unit)},
                                    {"setting_unit", quantity::name_of(wanted.unit)},
                                    {"setting_nm", setting.in_newton_metres()},
                                    {"torque_nm", wanted.torque().in_newton_metres()},
                                    {"torque_over_setting", fastener::torque_ratio(adapter)},
                                    {"length_mm", adapter.wrench_length.in_millimetres()},
                                    {"extension_mm", adapter.adapter_length.in_millimetres()},
                                    {"angle_deg", adapter.angle.in_degrees()},
                                    {"formula", kFormula},
                                    {"limits", kLimits}});
}

}  // namespace screen
