#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>
#include <set>
#include <string>
#include <vector>

#include "audit/flag.h"
#include "audit/rules.h"
#include "plan/new_fasteners.h"
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
std::string lines_of(const std::vector<const plan::Renewing*>& old_in) {
  std::set<std::int64_t> lines;
  for (const auto* renewing : old_in) lines.insert(renewing->old_went_back->line);
  return fmt::format("line {}", fmt::join(lines, ", line "));
}

// One-time fasteners that are still to be got, and those that went back in because the new ones
// had not arrived.
struct OneTimeWork {
  std::vector<int> to_get;
  std::vector<const plan::Renewing*> old_in;
};

void flag_old_in(const JointState& joint, const std::vector<const plan::Renewing*>& old_in,
                 std::vector<Deviation>& deviations) {
  std::vector<int> positions;
  for (const auto* renewing : old_in) positions.push_back(renewing->position);
  const auto address = fmt::format("{}/{}", joint.joint->code, record::write_positions(positions));
  deviations.push_back(flag_part(
      kOneTime, Level::Hold, joint, "old-in",
      fmt::format("{} tightened {} before the new ones had arrived: going by the times, the used "
                  "one-time fasteners are in",
                  lines_of(old_in), record::write_positions(positions)),
      fmt::format("take them out, fit the new ones and tighten again: out {0}, then tighten {1}. "
                  "If the new ones were in by then, enter their arrival again with its own time: "
                  "renew {0} --arrived --at ... --replace LINE --why ...",
                  address, joint.joint->code)));
}

void one_time(const Case& subject, std::vector<Deviation>& deviations) {
  std::map<const JointState*, OneTimeWork> by_joint;
  const auto list = plan::renewal_list(subject.job, subject.survey);
  for (const auto& renewing : list) {
    if (!renewing.is_for(plan::RenewalReason::OneTime)) continue;
    auto& work = by_joint[renewing.joint];
    if (!renewing.has_arrived) work.to_get.push_back(renewing.position);
    if (renewing.old_went_back != nullptr) work.old_in.push_back(&renewing);
  }
  for (const auto& joint : subject.survey.joints) {
    const auto found = by_joint.find(&joint);
    if (found == by_joint.end()) continue;
    const auto count = found->second.to_get.size();
    if (count > 0) {
      deviations.push_back(
          flag_joint(kOneTime, Level::Hold, joint,
                     fmt::format("{} one-time fasteners came out and have not been renewed", count),
                     fmt::format("get {} new: {}; then record it: renew {} --arrived", count,
                                 fastener_text(*joint.joint), joint.joint->code)));
    }
    if (!found->second.old_in.empty()) flag_old_in(joint, found->second.old_in, deviations);
  }
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

void not_renewed(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  const plan::NewFasteners new_fasteners(subject.job);
  for (const auto& work : subject.work->joints()) {
    const auto& code = work.state->joint->code;
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr || !work.is_back(position.position)) continue;
      const auto why = needs_new_one(position.removal->content.broke);
      const auto& fresh = new_fasteners.at(code, position.position);
      if (why.empty() || fresh.is_in) continue;
      const auto* before = fresh.old_went_back;
      deviations.push_back(flag_position(
          kNotRenewed, Level::Hold, *work.state, position.position,
          before == nullptr
              ? fmt::format("{} and no new one is recorded, yet something was tightened there", why)
              : fmt::format("{}, and line {} tightened something there before line {} says that a "
                            "new one arrived",
                            why, before->line, fresh.arrived->line),
          fmt::format("find out what is in the hole; if it is a new one of the right size, length "
                      "and grade, record when it arrived: renew {} --arrived --at ...{}",
                      record::write_address(code, position.position),
                      before == nullptr
                          ? ""
                          : fmt::format(" --replace {} --why ...", fresh.arrived->line))));
    }
  }
}

// A new fastener was tightened where the old one never came out: one of the counts is wrong. One
// that lies ready for a joint that is still together is no fault.
void renewed_in_place(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  const plan::NewFasteners new_fasteners(subject.job);
  for (const auto& work : subject.work->joints()) {
    std::vector<int> never_out;
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr &&
          new_fasteners.at(work.state->joint->code, position.position).beside_the_old) {
        never_out.push_back(position.position);
      }
    }
    if (never_out.empty()) continue;
    deviations.push_back(flag_joint(
        kRenewedInPlace, Level::Check, *work.state,
        fmt::format("new fasteners are recorded for {} and were tightened, but the old ones never "
                    "came out",
                    record::write_positions(never_out)),
        "record them as out, or strike the renewal and enter it for the right positions"));
  }
}

}  // namespace

constinit const Rule kOneTime{"one-time fastener", "one-time fasteners that have not been renewed",
                              one_time, RestsOn{.removals = true}};
constinit const Rule kNotRenewed{
    "not renewed", "holes whose fastener sheared or was missing, tightened without a new one",
    not_renewed, RestsOn{.removals = true, .tightenings = true}};
constinit const Rule kRenewedInPlace{"renewed in place",
                                     "new fasteners tightened where the old ones never came out",
                                     renewed_in_place, RestsOn{.removals = true}};

}  // namespace audit
