#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

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
        fmt::format("{}look whether the final stripes are still in line, and record it: {}{}",
                    once_it_is_reached(at), progress::look_command(*at.joint.joint, due.positions),
                    progress::reading_to_fill_in(*at.joint.joint)));
    deviation.positions = due.positions;
    // Looks that repeat go on for as long as the machine does.
    deviation.keeps_unfinished = !due.is_again();
    deviations.push_back(std::move(deviation));
  }
}

using Look = record::Entry<record::Recheck>;
using Out = record::Entry<record::Removal>;

// The lines of this kind at the position that are later than another, in the order of their ids.
template <class Content>
std::vector<const record::Entry<Content>*> later_at(const JointCase& at, int position,
                                                    const record::Stamp& line) {
  std::vector<const record::Entry<Content>*> later;
  for (const auto* entry : at.lines.of<Content>()) {
    const auto& positions = entry->content.positions;
    if (std::ranges::find(positions, position) == positions.end()) continue;
    if (record::is_later(entry->stamp, line)) later.push_back(entry);
  }
  return later;
}

// The first time that it came out after it had been found turned; nothing where it did not, where
// a new stripe stood by then, or where what was seen of it was told: when it was slackened, or with
// a line that has it out.
const Out* out_untold(const JointCase& at, int position, const Look& turned) {
  const auto outs = later_at<record::Removal>(at, position, turned.stamp);
  const Out* first = nullptr;
  for (const auto* out : outs) {
    if (!out->content.note.empty()) return nullptr;
    if (first == nullptr || record::is_earlier(out->stamp, first->stamp)) first = out;
  }
  if (first == nullptr) return nullptr;
  const auto is_before_out = [&](const auto* entry) {
    return record::is_earlier(entry->stamp, first->stamp);
  };
  if (std::ranges::any_of(later_at<record::FinalStripe>(at, position, turned.stamp),
                          is_before_out)) {
    return nullptr;
  }
  const auto works = later_at<record::Tightening>(at, position, turned.stamp);
  const bool is_told = std::ranges::any_of(
      works, [&](const auto* work) { return is_before_out(work) && !work->content.seen.empty(); });
  return is_told ? nullptr : first;
}

// Coming out does not heal a stripe that turned: nobody has told yet why it did.
void turned_and_out(const JointCase& at, int position, Deviations& deviations) {
  for (const auto* look : at.lines.of<record::Recheck>()) {
    const auto& positions = look->content.positions;
    if (!look->content.turned || std::ranges::find(positions, position) == positions.end()) {
      continue;
    }
    const auto* out = out_untold(at, position, *look);
    if (out == nullptr) continue;
    auto deviation = of_kind(
        flag_position(
            kStripeTurned, Level::Hold, at.joint, position,
            says("the final stripe was found turned by {} (line {}), it came out (line "
                 "{}), and nothing tells what was seen of it",
                 as::angle(*look->content.turned), as::line(look->stamp), as::line(out->stamp)),
            fmt::format("look at thread, face and seat and find out why it turned, then "
                        "tell it: out {} --replace {} --note \"what was seen\" --why "
                        "\"what was seen\"",
                        record::write_address(at.joint.joint->code, out->content.positions),
                        out->stamp.line)),
        "out");
    deviation.parts.front().told_in = &look->stamp;
    deviations.push_back(std::move(deviation));
    return;
  }
}

void stripe_turned(const JointCase& at, Deviations& deviations) {
  for (const auto& position : at.joint.positions) {
    turned_and_out(at, position.position, deviations);
  }
  for (const auto& due : at.rechecks) {
    if (!due.is_overdue || !due.turned) continue;
    for (const int position : due.positions) {
      auto deviation =
          flag_position(kStripeTurned, Level::Hold, at.joint, position,
                        says("the final stripe was found turned by {}", as::angle(*due.turned)),
                        "find out why it turned before it is tightened again; then a new stripe");
      deviation.parts.front().told_in = due.since;
      // What is done about it leaves the decision that asked for it standing.
      deviation.parts.front().rests_until = due.since;
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
