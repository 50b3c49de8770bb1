#include <fmt/format.h>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/joint_index.h"
#include "quantity/angle_text.h"
#include "record/address.h"

namespace audit {
namespace {

using progress::DueRecheck;

// Calls `act` for every look that should have been taken by now.
template <class Act>
void for_each_overdue(const Case& subject, Act&& act) {
  if (subject.rechecks.empty()) return;
  const finding::JointIndex joints(subject.survey);
  for (const auto& due : subject.rechecks) {
    if (due.is_overdue) act(due, *joints.find(due.joint->code));
  }
}

void recheck_overdue(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_overdue(subject, [&](const DueRecheck& due, const finding::JointState& joint) {
    if (due.turned) return;
    const auto which = record::write_positions(due.positions);
    const auto since = due.due_at ? "since " + record::write_local(*due.due_at)
                                  : "at " + record::write_exact(*due.due_reading);
    deviations.push_back(flag_part(
        kRecheckOverdue, Level::Check, joint,
        fmt::format("{}:{}", which, record::write_exact(*due.after)),
        fmt::format("{}: the look after {} has been due {}", which, record::write_exact(*due.after),
                    since),
        fmt::format(
            "look whether the final stripes are still in line, and record it: recheck {}/{}",
            joint.joint->code, which)));
  });
}

void stripe_turned(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_overdue(subject, [&](const DueRecheck& due, const finding::JointState& joint) {
    if (!due.turned) return;
    deviations.push_back(flag_positions(
        kStripeTurned, Level::Hold, joint, due.positions,
        fmt::format("the final stripe was found turned by {}", quantity::write_exact(*due.turned)),
        "find out why it turned before it is tightened again; then a new stripe"));
  });
}

}  // namespace

constinit const Rule kRecheckOverdue{"re-check overdue",
                                     "looks at final stripes that should have been taken by now",
                                     recheck_overdue, RestsOn{.tightenings = true}};
constinit const Rule kStripeTurned{"stripe turned", "final stripes that the last look found turned",
                                   stripe_turned, RestsOn{.tightenings = true}};

}  // namespace audit
