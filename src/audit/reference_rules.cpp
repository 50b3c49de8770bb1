#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/joint_index.h"
#include "progress/item_count.h"

namespace audit {
namespace {

// What is named by one that is about no joint of the logbook.
Deviation missing_joint_of(std::string_view what, std::string_view code, const std::string& named) {
  auto deviation = flag_job(
      kMissingJoint, Level::Hold,
      says("{} {} stands before {}, which is not in the logbook", as::wording(what), as::name(code),
           as::name(named)),
      fmt::format("enter it: joint {} ...; or enter {} again with --replace and another --before",
                  named, code));
  deviation.id = fmt::format("{}:{}:{}", dashed(kMissingJoint.name), code, named);
  deviation.parts.front().id = deviation.id;
  return deviation;
}

void missing_joint(const Case& subject, Deviations& deviations) {
  const auto& joints = subject.lookups->joints;
  for (const auto& state : subject.survey.joints) {
    const auto& joint = *state.joint;
    const auto look = [&](const std::vector<std::string>& named, std::string_view option) {
      for (const auto& other : named) {
        if (joints.find(other) != nullptr) continue;
        deviations.push_back(flag_part(
            kMissingJoint, Level::Hold, state, other,
            says("{} names {}, which is not in the logbook; the order is made as if it did not",
                 as::name(option), as::name(other)),
            fmt::format("enter it: joint {} ...; or say it anew: joint {} --replace {} {} ..., or "
                        "--without {}",
                        other, joint.code, state.entry->stamp.line, option, option.substr(2))));
      }
    };
    look(joint.after, "--after");
    look(joint.covers, "--covers");
  }
  for (const auto& count : progress::item_counts(subject.job)) {
    const auto& item = *count.item;
    if (item.before.empty() || joints.find(item.before) != nullptr) continue;
    deviations.push_back(missing_joint_of("item", item.code, item.before));
  }
  for (const auto& entry : subject.job.hold_points) {
    for (const auto& joint : entry.content.joints) {
      if (joints.find(joint) != nullptr) continue;
      deviations.push_back(missing_joint_of("hold point", entry.content.code, joint));
    }
  }
}

}  // namespace

constinit const Rule kMissingJoint{
    "missing joint", "joints, items and hold points that name a joint that is not in the logbook",
    missing_joint};

}  // namespace audit
