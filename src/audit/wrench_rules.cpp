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
Statement where_used(const JointState& joint, const Use& use) {
  return says("{}/{}", as::name(joint.joint->code), as::numbers(use.positions));
}

Deviation flag_wrench(const Rule& rule, Level level, const JointState& joint, const Use& use,
                      Statement says, std::string what_to_do) {
  auto deviation =
      flag_part(rule, level, joint, use.wrench->name, std::move(says), std::move(what_to_do));
  deviation.positions = use.positions;
  return deviation;
}

bool read_on_another_scale(const Finding& finding) {
  return finding.entry->content.unit != finding.wrench->scale.unit;
}

// A setting beyond an end of the scale that the wrench has as it is entered now.
bool read_off_scale(const Finding& finding) {
  const auto& readings = finding.entry->content.readings;
  return read_on_another_scale(finding) || std::ranges::any_of(readings, [&](const auto& reading) {
           return !record::is_on_scale(*finding.wrench, reading.setting);
         });
}

bool used_out_of_range(const Finding& finding) {
  const auto& measured = finding.entry->content;
  if (read_off_scale(finding)) return false;
  return std::ranges::any_of(measured.readings, [&](const auto& reading) {
    return !record::in_range(*finding.wrench,
                             quantity::StatedTorque{reading.setting, measured.unit});
  });
}

void wrench_range(const JointCase& at, Deviations& deviations) {
  for (const auto& [name, use] : by_wrench(at.joint, used_out_of_range)) {
    deviations.push_back(
        flag_wrench(kWrenchRange, Level::Check, at.joint, use,
                    says("{} was used outside its usable range {} at {}", as::name(name),
                         usable_range(*use.wrench), where_used(at.joint, use)),
                    "its accuracy holds only in that range; use another wrench where it matters"));
  }
}

bool used_out_of_calibration(const Finding& finding) {
  return record::is_out_of_calibration(*finding.wrench,
                                       record::local_day(finding.entry->stamp.done_at));
}

void wrench_calibration(const JointCase& at, Deviations& deviations) {
  for (const auto& [name, use] : by_wrench(at.joint, used_out_of_calibration)) {
    deviations.push_back(flag_wrench(
        kWrenchCalibration, Level::Check, at.joint, use,
        says("{} was out of calibration on the day it tested {} ({})", as::name(use.wrench->name),
             where_used(at.joint, use), calibration(*use.wrench)),
        "compare it with a wrench in calibration at that setting before the findings are relied "
        "on"));
  }
}

// Nobody can have set it so: the wrench or the finding was entered wrongly, or the scale is another
// since.
Statement off_scale_text(const JointCase& at, const Use& use) {
  const auto& wrench = *use.wrench;
  const auto is_of_another = [&](int position) {
    return read_on_another_scale(*at.joint.at(position).finding());
  };
  if (std::ranges::any_of(use.positions, is_of_another)) {
    return says("{} has a scale in {} now, but {} was entered when its scale was another",
                as::name(wrench.name), as::name(quantity::name_of(wrench.scale.unit)),
                where_used(at.joint, use));
  }
  return says("{} was found with settings that are not on the scale of {}, {}",
              where_used(at.joint, use), as::name(wrench.name),
              as::name(record::scale_text(wrench)));
}

void wrench_scale(const JointCase& at, Deviations& deviations) {
  for (const auto& [name, use] : by_wrench(at.joint, read_off_scale)) {
    deviations.push_back(
        flag_wrench(kWrenchScale, Level::Hold, at.joint, use, off_scale_text(at, use),
                    "find out which scale was read; strike those findings and enter them again, or "
                    "correct the wrench"));
  }
}

}  // namespace

constinit const Rule kWrenchScale{"wrench scale",
                                  "findings with settings that are not on the wrench's scale",
                                  wrench_scale, kRestsOn<record::Measured>};
constinit const Rule kWrenchRange{"wrench range", "settings outside a wrench's usable range",
                                  wrench_range, kRestsOn<record::Measured>};
constinit const Rule kWrenchCalibration{"wrench calibration",
                                        "wrenches out of calibration on the day they were used",
                                        wrench_calibration, kRestsOn<record::Measured>};

}  // namespace audit
