#include "report/pass_text.h"

#include <fmt/format.h>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"

namespace report {
namespace {

// "at least " or "at most " where the aim is a limit.
std::string_view limit_word(const plan::Aim& aim) {
  return plan::is_minimum(aim) ? "at least " : plan::is_maximum(aim) ? "at most " : "";
}

}  // namespace

std::string target_text(const plan::PlannedPass& planned, const record::LogbookStart& start) {
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
  return fmt::format("{}{}", limit_word(aim), quantity::write_rounded(aim.torque, start.unit));
}

std::string setting_text(const plan::PlannedPass& planned) {
  if (!planned.setting) return planned.pass.aim ? "no wrench here can do this" : "";
  const auto& setting = *planned.setting;
  return fmt::format("{}{} at {} {}", setting.wrench->name,
                     setting.calibration_known ? "" : " (calibration not on record)",
                     quantity::write_rounded(setting.setting),
                     quantity::name_of(setting.wrench->scale.unit));
}

}  // namespace report
