#include "report/sequence_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "quantity/number_text.h"
#include "quantity/percent.h"
#include "quantity/stated_torque.h"
#include "report/joint_heading.h"
#include "report/json_text.h"
#include "report/pass_text.h"

namespace report {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;
using Kind = record::PassKind;

constexpr const char* kCautions =
    "Before any of this: power isolated, waited out and proved dead; stored energy locked out; the "
    "load on stands and chocks. Brake, steering, lifting and pressure joints need the maker's "
    "procedure and a second person. The maker's manual and local rules outrank this list.";

std::string order_text(const std::vector<int>& order) {
  std::string text;
  for (const int position : order) text += fmt::format("{}{}", text.empty() ? "" : " ", position);
  return text;
}

// ", the wrench's ±4% allowed for"; empty where the aim is no limit.
std::string clearance_text(const PlannedPass& planned) {
  if (!planned.setting || !planned.setting->kept_clear_by) return {};
  return fmt::format(", the wrench's ±{} allowed for",
                     quantity::write_exact(*planned.setting->kept_clear_by));
}

std::string pass_text(const PlannedJoint& joint, std::size_t number, const PlannedPass& planned,
                      const record::LogbookStart& start, const Page& page) {
  // The setting comes first, it is what the hand needs; the target only where it reads otherwise.
  const auto setting = setting_text(planned);
  const auto target = target_text(planned, start);
  std::string line = fmt::format("pass {} of {}: {}", number, joint.passes.size(),
                                 setting.empty() ? target : setting);
  if (!setting.empty() && !setting.ends_with("at " + target)) {
    line += " (" + target + clearance_text(planned) + ")";
  }
  if (!planned.pass.says.empty()) line += ", " + planned.pass.says;
  return wrapped(line, page.width, "  ", "      ") +
         wrapped(order_text(planned.order), page.width, "      order ", "            ");
}

std::string joint_text(std::size_t number, const PlannedJoint& joint,
                       const record::LogbookStart& start, const Page& page) {
  std::string text = joint_heading(*joint.state, start, page, fmt::format("{}. ", number));
  text += wrapped("why here: " + joint.why, page.width, "  ", "    ");
  text += wrapped("order: " + joint.positions.why, page.width, "  ", "    ");
  text += wrapped("passes: " + joint.passes_origin, page.width, "  ", "    ");
  for (std::size_t i = 0; i < joint.passes.size(); ++i) {
    text += pass_text(joint, i + 1, joint.passes[i], start, page);
  }
  return text + "  then: final stripe on each fastener\n";
}

// Each pass rule that the plan uses, once, with its source.
std::string rule_sources(const plan::ReassemblyPlan& plan, const Page& page) {
  std::set<std::pair<std::string, std::string>> rules;
  for (const auto& joint : plan.joints) {
    if (!joint.passes_source.empty()) rules.emplace(joint.passes_rule, joint.passes_source);
  }
  std::string text;
  for (const auto& [rule, source] : rules) {
    text += wrapped(fmt::format("{}: {}", rule, source), page.width, "  ", "    ");
  }
  return text.empty() ? text : "\nPass rules used\n" + text;
}

nlohmann::ordered_json step_json(int number, const PlannedJoint& joint, std::size_t pass,
                                 const PlannedPass& planned, int position,
                                 const std::string& adapter) {
  nlohmann::ordered_json step = {{"n", number},
                                 {"joint", joint.state->joint->code},
                                 {"pass", pass},
                                 {"position", position},
                                 {"kind", record::word_of(planned.pass.kind)},
                                 {"target_nm", nullptr},
                                 {"limit", nullptr},
                                 {"angle_deg", nullptr},
                                 {"wrench", nullptr},
                                 {"setting", nullptr},
                                 {"setting_unit", nullptr},
                                 {"provisional", joint.provisional},
                                 {"applied_nm", nullptr},
                                 {"adapter", nullptr}};
  if (planned.pass.aim) {
    step["target_nm"] = planned.pass.aim->torque.in_newton_metres();
    if (plan::is_minimum(*planned.pass.aim)) step["limit"] = "min";
    if (plan::is_maximum(*planned.pass.aim)) step["limit"] = "max";
  }
  if (planned.pass.angle) step["angle_deg"] = planned.pass.angle->in_degrees();
  if (planned.setting) {
    step["wrench"] = planned.setting->wrench->name;
    step["setting"] = planned.setting->setting;
    step["setting_unit"] = quantity::name_of(planned.setting->wrench->scale.unit);
    step["applied_nm"] = planned.setting->applied.in_newton_metres();
    if (!adapter.empty()) step["adapter"] = adapter;
  }
  return step;
}

}  // namespace

std::string sequence_text(const plan::ReassemblyPlan& plan, const record::LogbookStart& start,
                          const audit::Audit& audit, const Page& page) {
  if (plan.joints.empty()) return no_joints(page);
  std::string text = wrapped(kCautions, page.width, "", "");
  const auto holds = static_cast<std::size_t>(
      std::ranges::count(audit.deviations, audit::Level::Hold, &audit::Deviation::level));
  if (holds > 0) {
    text += wrapped(
        fmt::format("{} still open; \"boltwitness audit\" names them.", counted(holds, "hold")),
        page.width, "", "");
  }
  if (!plan.adapter.words.empty()) {
    text +=
        '\n' + wrapped(fmt::format("Every setting is through {}: the fastener gets {:.4g} times "
                                   "the setting. Keep the angle, pull at the middle of the grip.",
                                   plan.adapter.words, plan.adapter.torque_ratio),
                       page.width, "", "");
  }
  if (!plan.warnings.empty()) {
    text += '\n' + strong("To see to first", page) + '\n';
    for (const auto& warning : plan.warnings) text += wrapped(warning, page.width, "  - ", "    ");
  }
  std::size_t number = 0;
  for (const auto& joint : plan.joints) text += '\n' + joint_text(++number, joint, start, page);
  return text + rule_sources(plan, page);
}

std::string sequence_json(const plan::ReassemblyPlan& plan) {
  auto steps = nlohmann::ordered_json::array();
  int number = 0;
  for (const auto& joint : plan.joints) {
    for (std::size_t pass = 0; pass < joint.passes.size(); ++pass) {
      for (const int position : joint.passes[pass].order) {
        steps.push_back(
            step_json(++number, joint, pass + 1, joint.passes[pass], position, plan.adapter.words));
      }
    }
  }
  return json_text({{"steps", std::move(steps)}, {"warnings", plan.warnings}});
}

}  // namespace report
