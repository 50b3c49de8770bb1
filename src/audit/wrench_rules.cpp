#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>

#include "audit/flag.h"
#include "audit/rules.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::Finding;
using finding::JointState;

struct Use {
  const record::Wrench* wrench = nullptr;
  std::vector<int> positions;
};

// The positions of one joint whose current finding meets `suspect`, by the wrench's name; those
// whose wrench is gone are strays and left out.
template <class Suspect>
std::map<std::string, Use> by_wrench(const JointState& joint, Suspect&& suspect) {
  std::map<std::string, Use> uses;
  for (const auto& position : joint.positions) {
    const auto* finding = position.finding();
    if (finding == nullptr || finding->wrench == nullptr || !suspect(*finding)) continue;
    Use& use = uses[finding->wrench->name];
    use.wrench = finding->wrench;
    use.positions.push_back(position.position);
  }
  return uses;
}

// "J14/1-2": as people type it, so that a lone position is no bare number.
std::string positions_text(const JointState& joint, const Use& use) {
  return fmt::format("{}/{}", joint.joint->code, record::write_positions(use.positions));
}

Deviation flag_wrench(const Rule& rule, const JointState& joint, const record::Wrench& wrench,
                      std::string says, std::string what_to_do) {
  return flag_part(rule, Level::Check, joint, wrench.name, std::move(says), std::move(what_to_do));
}

bool used_out_of_range(const Finding& finding) {
  const auto& measured = finding.entry->content;
  return std::ranges::any_of(measured.readings, [&](const auto& reading) {
    return !record::in_range(*finding.wrench,
                             quantity::StatedTorque{reading.setting, measured.unit});
  });
}

void wrench_range(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& [name, use] : by_wrench(joint, used_out_of_range)) {
      const auto* wrench = use.wrench;
      deviations.push_back(flag_wrench(
          kWrenchRange, joint, *wrench,
          fmt::format("{} was used outside its usable range {} at {}", name,
                      usable_range_text(*wrench), positions_text(joint, use)),
          "its accuracy holds only in that range; use another wrench where it matters"));
    }
  }
}

bool used_out_of_calibration(const Finding& finding) {
  return record::is_out_of_calibration(*finding.wrench,
                                       record::local_day(finding.entry->stamp.done_at));
}

void wrench_calibration(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& [name, use] : by_wrench(joint, used_out_of_calibration)) {
      const auto* wrench = use.wrench;
      deviations.push_back(flag_wrench(
          kWrenchCalibration, joint, *wrench,
          fmt::format("{} was out of calibration on the day it tested {} ({})", wrench->name,
                      positions_text(joint, use), calibration_text(*wrench)),
          "compare it with a wrench in calibration at that setting before the findings are relied "
          "on"));
    }
  }
}

bool read_on_another_scale(const Finding& finding) {
  return finding.entry->content.unit != finding.wrench->scale.unit;
}

void wrench_scale(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& [name, use] : by_wrench(joint, read_on_another_scale)) {
      auto deviation = flag_wrench(
          kWrenchScale, joint, *use.wrench,
          fmt::format("{} has a scale in {} now, but {} was entered when its scale was another",
                      name, quantity::name_of(use.wrench->scale.unit), positions_text(joint, use)),
          "find out which scale was read; strike those findings and enter them again");
      deviation.level = Level::Hold;
      deviations.push_back(std::move(deviation));
    }
  }
}

}  // namespace

constinit const Rule kWrenchScale{"wrench scale",
                                  "findings read on another scale than the wrench has now",
                                  wrench_scale, RestsOn{.findings = true}};
constinit const Rule kWrenchRange{"wrench range", "settings outside a wrench's usable range",
                                  wrench_range, RestsOn{.findings = true}};
constinit const Rule kWrenchCalibration{"wrench calibration",
                                        "wrenches out of calibration on the day they were used",
                                        wrench_calibration, RestsOn{.findings = true}};

}  // namespace audit
