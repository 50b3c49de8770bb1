#include <fmt/format.h>

#include <algorithm>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/joint_index.h"
#include "progress/item_count.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using progress::JointWork;

bool has_stripe(const Case& subject, const JointWork& work) {
  return std::ranges::any_of(work.state->positions, [&](const auto& position) {
    return subject.work->progress().finish_of(work.state->joint->code, position.position).drawn !=
           nullptr;
  });
}

// A final stripe says that the joint is done; by then whatever came out of it is back.
void not_back(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  for (const auto& work : subject.work->joints()) {
    if (!has_stripe(subject, work)) continue;
    std::vector<int> missing;
    std::size_t out = 0;
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr) continue;
      ++out;
      if (!work.is_back(position.position)) missing.push_back(position.position);
    }
    if (missing.empty()) continue;
    deviations.push_back(flag_joint(
        kNotBack, Level::Hold, *work.state,
        fmt::format("{} came out and {} went back in, yet the joint has a final stripe; not back: "
                    "{}",
                    out, out - missing.size(), record::write_positions(missing)),
        fmt::format(
            "count what is left in the bag; then tighten and record the rest: tighten {}/{}",
            work.state->joint->code, record::write_positions(missing))));
  }
}

bool was_worked_on(const Case& subject, const finding::JointState& joint) {
  const auto* work = subject.work == nullptr ? nullptr : subject.work->joint(joint.joint->code);
  return work != nullptr && std::ranges::any_of(joint.positions, [&](const auto& position) {
           return work->is_back(position.position);
         });
}

void item_count(const Case& subject, std::vector<Deviation>& deviations) {
  const finding::JointIndex joints(subject.survey);
  for (const auto& item : progress::item_counts(subject.job)) {
    const auto* joint = joints.find(item.item->before);
    if (joint == nullptr) continue;
    const auto& code = item.item->code;
    const auto count = fmt::format("{} of {} {} came off and {} went back", code, item.off,
                                   item.item->what, item.back);
    if (item.missing() < 0) {
      deviations.push_back(flag_part(kItemCount, Level::Check, *joint, code, count,
                                     "count them at the machine and strike the wrong line"));
    } else if (item.missing() > 0 && was_worked_on(subject, *joint)) {
      deviations.push_back(
          flag_part(kItemCount, Level::Hold, *joint, code,
                    fmt::format("{}, yet {} was tightened, which has to wait for them", count,
                                joint->joint->code),
                    "look for them inside before anything is closed; then record what is back"));
    }
  }
}

}  // namespace

constinit const Rule kNotBack{"not back",
                              "joints with a final stripe where fewer went back in than came out",
                              not_back, RestsOn{.removals = true, .tightenings = true}};
constinit const Rule kItemCount{
    "item count", "counted items that came off and went back against the joint that waits for them",
    item_count};

}  // namespace audit
