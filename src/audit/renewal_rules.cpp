#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "audit/flag.h"
#include "audit/rules.h"
#include "audit/together.h"
#include "plan/renewal_list.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using record::BreakLoose;

std::string fastener_text(const record::Joint& joint) {
  return fmt::format("{}{} {}", joint.size, joint.length ? " x " + record::length_text(joint) : "",
                     joint.grade);
}

// "line 41", "line 41, line 44": those that put the old ones back.
Statement lines_of(const std::vector<const plan::Renewing*>& old_in) {
  std::set<std::int64_t> lines;
  for (const auto* renewing : old_in) lines.insert(renewing->old_went_back->line);
  return as::wording(fmt::format("line {}", fmt::join(lines, ", line ")));
}

// The commands that enter the arrivals again with a time of their own, before the new ones went in:
// a minute before is the latest that can be meant. Each names all that its line names.
std::string arrivals_in_time(const JointCase& at,
                             const std::vector<const plan::Renewing*>& old_in) {
  const auto& code = at.joint.joint->code;
  std::map<std::int64_t, record::Moment> latest;  // by the line of the arrival
  for (const auto* renewing : old_in) {
    const auto* arrived = at.whole.lookups->new_fasteners.at(code, renewing->position).arrived;
    const auto before = renewing->old_went_back->done_at - std::chrono::minutes(1);
    const auto [found, is_first] = latest.try_emplace(arrived->line, before);
    if (!is_first) found->second = std::min(found->second, before);
  }
  std::string commands;
  for (const auto* arrival : at.lines.of<record::Renewal>()) {
    const auto found = latest.find(arrival->stamp.line);
    if (found == latest.end()) continue;
    commands += fmt::format("{}renew {}/{} --arrived --at {} --replace {} --why \"here by then\"",
                            commands.empty() ? "" : ", ", code,
                            record::write_positions(arrival->content.positions),
                            record::write_utc(found->second), arrival->stamp.line);
  }
  return commands;
}

void flag_old_in(const JointCase& at, const std::vector<const plan::Renewing*>& old_in,
                 Deviations& deviations) {
  const auto& joint = at.joint;
  std::vector<int> positions;
  positions.reserve(old_in.size());
  for (const auto* renewing : old_in) positions.push_back(renewing->position);
  const auto address = fmt::format("{}/{}", joint.joint->code, record::write_positions(positions));
  auto deviation = flag_part(
      kOneTime, Level::Hold, joint, "old-in",
      says("{} tightened {} before the new ones had arrived: going by the times, the used "
           "one-time fasteners are in",
           lines_of(old_in), as::numbers(positions)),
      fmt::format(
          "take them out, fit the new ones and tighten again: out {0}, then tighten {1}. "
          "If the new ones were in by then, enter their arrival again with its own time, such "
          "as: {2}",
          address, joint.joint->code, arrivals_in_time(at, old_in)));
  deviation.positions = positions;
  deviations.push_back(std::move(deviation));
}

// Those still to be got, and those that went back in because the new ones had not arrived.
void one_time(const JointCase& at, Deviations& deviations) {
  const auto& renewals = at.whole.lookups->renewals;
  const auto& joint = *at.joint.joint;
  const auto found = renewals.find(record::folded_code(joint.code));
  if (found == renewals.end()) return;
  std::vector<int> to_get;
  std::vector<const plan::Renewing*> old_in;
  for (const auto& renewing : found->second) {
    if (!renewing.is_for(plan::RenewalReason::OneTime)) continue;
    if (!renewing.has_arrived) to_get.push_back(renewing.position);
    if (renewing.old_went_back != nullptr) old_in.push_back(&renewing);
  }
  if (!to_get.empty()) {
    auto deviation = flag_joint(
        kOneTime, Level::Hold, at.joint,
        says("{} one-time fasteners came out and have not been renewed", as::count(to_get.size())),
        fmt::format("get {} new: {}; then record it: renew {} --arrived", to_get.size(),
                    fastener_text(joint), joint.code));
    deviation.positions = to_get;
    deviations.push_back(std::move(deviation));
  }
  if (!old_in.empty()) flag_old_in(at, old_in, deviations);
}

// The fastener of the hole is no more, or never was there, and nobody recorded a new one.
std::string_view needs_new_one(BreakLoose broke) {
  switch (broke) {
    case BreakLoose::Sheared:
      return "the fastener sheared at teardown";
    case BreakLoose::Empty:
      return "the hole was empty at teardown";
    default:
      return {};
  }
}

// Why what was in is not used again; nothing of a reason that other rules hold up.
std::string_view is_unfit(plan::RenewalReason reason) {
  switch (reason) {
    case plan::RenewalReason::DamagedThread:
      return "the thread of the fastener was found damaged";
    case plan::RenewalReason::OtherFastener:
      return "the fastener that came out was not the joint's";
    case plan::RenewalReason::Overstretched:
      return "the fastener was found overstretched";
    case plan::RenewalReason::TurnedSpent:
      return "its stripe was found turned, and it is not used again once it is slackened";
    case plan::RenewalReason::TestedSpent:
      return "it was tested since it was tightened, and is not used again";
    default:
      return {};
  }
}

// The last work on it; nothing where it was slackened alone.
const record::Stamp* last_tightened(const JointCase& at, int position) {
  const record::Stamp* last = nullptr;
  for (const auto* entry : at.work->done_at(position)) {
    if (!record::is_work(entry->content)) continue;
    const auto kind = entry->content.target.kind;
    if (kind == record::PassKind::Loosen || kind == record::PassKind::Check) continue;
    last = &entry->stamp;
  }
  return last;
}

// What was not to be used again went back in, and nobody decided that it may. A decision on a new
// one says itself that it is still to be done, and one-time fasteners have a rule of their own.
void put_back_unfit(const JointCase& at, int position, Deviations& deviations) {
  const auto& code = at.joint.joint->code;
  const auto& renewals = at.whole.lookups->renewals;
  const auto of_joint = renewals.find(record::folded_code(code));
  if (of_joint == renewals.end()) return;
  const auto found = std::ranges::find(of_joint->second, position, &plan::Renewing::position);
  if (found == of_joint->second.end()) return;
  const auto& renewing = *found;
  const auto& decided = at.whole.lookups->decided.at(code, position);
  const auto& fresh = at.whole.lookups->new_fasteners.at(code, position);
  const auto is_asked = [&](plan::RenewalReason reason) {
    return renewing.is_for(reason) && !decided.as_is.contains(plan::rule_of(reason));
  };
  if (is_asked(plan::RenewalReason::OneTime)) return;
  // Its specification begins with the old ones.
  if (renewing.is_for(plan::RenewalReason::BetweenPasses)) return;
  if (decided.renew != nullptr &&
      (fresh.went_in == nullptr || record::is_earlier(*fresh.went_in, *decided.renew))) {
    return;
  }
  const auto* tightened = last_tightened(at, position);
  if (tightened == nullptr) return;
  const auto reason = std::ranges::find_if(renewing.reasons, [&](plan::RenewalReason each) {
    if (is_unfit(each).empty() || !is_asked(each)) return false;
    const bool was_in =
        each == plan::RenewalReason::TurnedSpent || each == plan::RenewalReason::TestedSpent;
    if (!was_in) return !fresh.is_in;
    return record::is_later(*tightened, *renewing.asked) &&
           !(fresh.is_in && record::is_later(*fresh.went_in, *renewing.asked));
  });
  if (reason == renewing.reasons.end()) return;
  constexpr const char* kTakeOut =
      "take it out, fit a new one and tighten that: out {0}; if a new one is in, record when it "
      "arrived: renew {0} --arrived --at ...";
  auto deviation = of_kind(
      flag_position(kNotRenewed, Level::Hold, at.joint, position,
                    says("{}; it was tightened all the same, and no new one is recorded as in",
                         Statement{std::string(is_unfit(*reason)),
                                   as::name(plan::in_words(*reason)).figures}),
                    fmt::format(fmt::runtime(kTakeOut), record::write_address(code, position))),
      kOldIn);
  deviation.what_to_do_at = kTakeOut;
  deviations.push_back(std::move(deviation));
}

void not_renewed(const JointCase& at, const finding::PositionState& position,
                 Deviations& deviations) {
  if (at.work == nullptr) return;
  const auto& code = at.joint.joint->code;
  const auto why = position.removal == nullptr ? std::string_view()
                                               : needs_new_one(position.removal->content.broke);
  const auto& fresh = at.whole.lookups->new_fasteners.at(code, position.position);
  if (why.empty() || fresh.is_in) {
    put_back_unfit(at, position.position, deviations);
    return;
  }
  if (!at.work->is_back(position.position)) return;
  const Statement because{std::string(why),
                          as::name(record::word_of(position.removal->content.broke)).figures};
  constexpr const char* kFindOut =
      "find out what is in the hole; if it is a new one of the right size, length and grade, "
      "record when it arrived: renew {} --arrived --at ...";
  const auto* before = fresh.old_went_back;
  if (before != nullptr) {
    deviations.push_back(apart(flag_position(
        kNotRenewed, Level::Hold, at.joint, position.position,
        says("{}, and line {} tightened something there before line {} says that a new one arrived",
             because, as::line(*before), as::line(*fresh.arrived)),
        fmt::format(fmt::runtime(kFindOut), record::write_address(code, position.position)) +
            fmt::format(" --replace {} --why ...", fresh.arrived->line))));
    return;
  }
  auto deviation = flag_position(
      kNotRenewed, Level::Hold, at.joint, position.position,
      says("{} and no new one is recorded, yet something was tightened there", because),
      fmt::format(fmt::runtime(kFindOut), record::write_address(code, position.position)));
  deviation.what_to_do_at = kFindOut;
  deviations.push_back(std::move(deviation));
}

// A new fastener was tightened where the old one never came out: one of the counts is wrong. One
// that lies ready for a joint that is still together is no fault.
void renewed_in_place(const JointCase& at, Deviations& deviations) {
  if (at.work == nullptr) return;
  std::vector<int> never_out;
  for (const auto& position : at.joint.positions) {
    if (position.removal == nullptr &&
        at.whole.lookups->new_fasteners.at(at.joint.joint->code, position.position)
            .beside_the_old) {
      never_out.push_back(position.position);
    }
  }
  if (never_out.empty()) return;
  auto deviation = flag_joint(
      kRenewedInPlace, Level::Check, at.joint,
      says("new fasteners are recorded for {} and were tightened, but the old ones never came out",
           as::numbers(never_out)),
      "record them as out, or strike the renewal and enter it for the right positions");
  deviation.positions = never_out;
  deviations.push_back(std::move(deviation));
}

}  // namespace

constinit const Rule kOneTime{"one-time fastener", "one-time fasteners that have not been renewed",
                              one_time, kRestsOn<record::Removal>};
constinit const Rule kNotRenewed{
    "not renewed", "places that wanted a new fastener, tightened without one", not_renewed,
    kRestsOn<record::Removal, record::Renewal, record::Tightening>, each_in_turn};
constinit const Rule kRenewedInPlace{"renewed in place",
                                     "new fasteners tightened where the old ones never came out",
                                     renewed_in_place, kRestsOn<record::Removal>};

}  // namespace audit
