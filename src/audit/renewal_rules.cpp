#include <fmt/format.h>

#include <map>
#include <set>
#include <string>
#include <unordered_map>

#include "audit/flag.h"
#include "audit/rules.h"
#include "plan/renewal_list.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using record::BreakLoose;

// The positions that got a new fastener, by folded code.
std::unordered_map<std::string, std::set<int>> renewed_positions(const record::Job& job) {
  std::unordered_map<std::string, std::set<int>> renewed;
  for (const auto& entry : job.renewals) {
    renewed[record::folded_code(entry.content.joint)].insert(entry.content.positions.begin(),
                                                             entry.content.positions.end());
  }
  return renewed;
}

void one_time(const Case& subject, std::vector<Deviation>& deviations) {
  std::map<const JointState*, std::size_t> to_get;
  for (const auto& renewing : plan::renewal_list(subject.job, subject.survey)) {
    if (renewing.is_for(plan::RenewalReason::OneTime) && !renewing.has_arrived) {
      ++to_get[renewing.joint];
    }
  }
  for (const auto& joint : subject.survey.joints) {
    const auto found = to_get.find(&joint);
    if (found == to_get.end()) continue;
    const auto count = found->second;
    deviations.push_back(
        flag_joint(kOneTime, Level::Hold, joint,
                   fmt::format("{} one-time fasteners came out and have not been renewed", count),
                   fmt::format("get {} new: {}{} {}; then record it: renew {} --arrived", count,
                               joint.joint->size,
                               joint.joint->length ? " x " + record::length_text(*joint.joint) : "",
                               joint.joint->grade, joint.joint->code)));
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
  const auto renewed = renewed_positions(subject.job);
  for (const auto& work : subject.work->joints()) {
    const auto& code = work.state->joint->code;
    const auto fresh = renewed.find(record::folded_code(code));
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr || !work.is_back(position.position)) continue;
      if (fresh != renewed.end() && fresh->second.contains(position.position)) continue;
      const auto why = needs_new_one(position.removal->content.broke);
      if (why.empty()) continue;
      deviations.push_back(flag_position(
          kNotRenewed, Level::Hold, *work.state, position.position,
          fmt::format("{} and no new one is recorded, yet something was tightened there", why),
          fmt::format("find out what is in the hole; if it is a new one of the right size, length "
                      "and grade, record it: renew {}",
                      record::write_address(code, position.position))));
    }
  }
}

// A new fastener was tightened where the old one never came out: one of the counts is wrong. One
// that lies ready for a joint that is still together is no fault.
void renewed_in_place(const Case& subject, std::vector<Deviation>& deviations) {
  if (subject.work == nullptr) return;
  const auto renewed = renewed_positions(subject.job);
  for (const auto& work : subject.work->joints()) {
    const auto fresh = renewed.find(record::folded_code(work.state->joint->code));
    if (fresh == renewed.end()) continue;
    std::vector<int> never_out;
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr && fresh->second.contains(position.position) &&
          work.is_back(position.position)) {
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
