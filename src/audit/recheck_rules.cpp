#include <fmt/format.h>

#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "progress/finish_commands.h"
#include "record/address.h"

namespace audit {
namespace {

Statement since(const progress::DueRecheck& due) {
  return due.due_at ? says("since {}", as::moment(*due.due_at))
                    : says("at {}", as::name(record::write_exact(*due.due_reading)));
}

void recheck_overdue(const JointCase& at, Deviations& deviations) {
  for (const auto& due : at.rechecks) {
    if (!due.is_overdue || due.turned) continue;
    const auto which = record::write_positions(due.positions);
    const auto after = record::length_text(*due.after);
    auto deviation = flag_part(
        kRecheckOverdue, Level::Check, at.joint, fmt::format("{}:{}", which, after),
        says("{}: the look after {} has been due {}", as::numbers(due.positions), as::name(after),
             since(due)),
        fmt::format("look whether the final stripes are still in line, and record it: {}{}",
                    progress::look_command(*at.joint.joint, due.positions),
                    progress::reading_to_fill_in(*at.joint.joint)));
    deviation.positions = due.positions;
    // Looks that repeat go on for as long as the machine does.
    deviation.keeps_unfinished = !due.is_again();
    deviations.push_back(std::move(deviation));
  }
}

void stripe_turned(const JointCase& at, Deviations& deviations) {
  for (const auto& due : at.rechecks) {
    if (!due.is_overdue || !due.turned) continue;
    for (const int position : due.positions) {
      auto deviation =
          flag_position(kStripeTurned, Level::Hold, at.joint, position,
                        says("the final stripe was found turned by {}", as::angle(*due.turned)),
                        "find out why it turned before it is tightened again; then a new stripe");
      deviation.parts.front().told_in = due.since;
      deviations.push_back(std::move(deviation));
    }
  }
}

}  // namespace

constinit const Rule kRecheckOverdue{"re-check overdue",
                                     "looks at final stripes that should have been taken by now",
                                     recheck_overdue, kRestsOn<record::Tightening>};
constinit const Rule kStripeTurned{"stripe turned", "final stripes that the last look found turned",
                                   stripe_turned, kRestsOn<record::Tightening>, each_in_turn};

}  // namespace audit
