#include "words/pass_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "quantity/percent.h"
#include "record/address.h"

namespace words {
namespace {

// "at least " or "at most " where the aim is a limit.
std::string_view limit_word(const plan::Aim& aim) {
  return plan::is_minimum(aim) ? "at least " : plan::is_maximum(aim) ? "at most " : "";
}

// ", the wrench's ±4% allowed for"; empty where the aim is no limit.
std::string clearance_text(const plan::PlannedPass& planned) {
  if (!planned.setting || !planned.setting->kept_clear_by) return {};
  return fmt::format(", the wrench's ±{} allowed for",
                     quantity::write_exact(*planned.setting->kept_clear_by));
}

}  // namespace

std::string target_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit) {
  switch (planned.pass.kind) {
    case record::PassKind::Angle:
      return "turn " + quantity::write_exact(*planned.pass.angle) + " further";
    case record::PassKind::Loosen:
      return planned.pass.angle ? "loosen by " + quantity::write_exact(*planned.pass.angle)
                                : "loosen fully";
    case record::PassKind::Snug:
      return "snug";
    case record::PassKind::Renew:
      return "fit a new fastener";
    case record::PassKind::Torque:
    case record::PassKind::Check:
      break;
  }
  if (!planned.pass.aim) return "no torque known";
  const auto& aim = *planned.pass.aim;
  return fmt::format("{}{}", limit_word(aim), quantity::write_rounded(aim.torque, unit));
}

std::string setting_text(const plan::PlannedPass& planned) {
  if (!planned.setting) return planned.pass.aim ? "no wrench here can do this" : "";
  const auto& setting = *planned.setting;
  return fmt::format("{}{} at {} {}", setting.wrench->name,
                     setting.calibration_known ? "" : " (calibration not on record)",
                     quantity::write_rounded(setting.setting),
                     quantity::name_of(setting.wrench->scale.unit));
}

std::string asked_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit) {
  const auto target = target_text(planned, unit);
  const auto setting = setting_text(planned);
  return setting.empty() || setting.ends_with("at " + target) ? target : target + " asked";
}

std::string work_text(const plan::PlannedPass& planned, quantity::TorqueUnit unit) {
  // The setting comes first, it is what the hand needs; the target only where it reads otherwise.
  const auto target = target_text(planned, unit);
  const auto asked = asked_text(planned, unit);
  std::string text = setting_text(planned);
  if (text.empty()) {
    text = target;
  } else if (asked != target) {
    text += fmt::format(" ({}{})", asked, clearance_text(planned));
  }
  if (!planned.pass.says.empty()) text += ", " + planned.pass.says;
  return text;
}

std::string at_positions(const plan::PlannedJoint& joint, std::vector<int> positions) {
  if (positions.size() == joint.state->positions.size()) return {};
  std::ranges::sort(positions);
  return fmt::format(" at position{} {}", positions.size() == 1 ? "" : "s",
                     record::write_positions(positions));
}

}  // namespace words
