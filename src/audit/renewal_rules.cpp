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

void not_renewed(const JointCase& at, const finding::PositionState& position,
                 Deviations& deviations) {
  if (at.work == nullptr || position.removal == nullptr) return;
  if (!at.work->is_back(position.position)) return;
  const auto& code = at.joint.joint->code;
  const auto why = needs_new_one(position.removal->content.broke);
  const auto& fresh = at.whole.lookups->new_fasteners.at(code, position.position);
  if (why.empty() || fresh.is_in) return;
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
    "not renewed", "holes whose fastener sheared or was missing, tightened without a new one",
    not_renewed, kRestsOn<record::Removal, record::Renewal, record::Tightening>, each_in_turn};
constinit const Rule kRenewedInPlace{"renewed in place",
                                     "new fasteners tightened where the old ones never came out",
                                     renewed_in_place, kRestsOn<record::Removal>};

}  // namespace audit
