#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/other_fastener.h"
#include "plan/renewal_list.h"
#include "quantity/length_text.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::JointState;
using finding::PositionState;
using record::BreakLoose;

template <class Act>
void for_each_removed(const Case& subject, Act&& act) {
  for (const auto& joint : subject.survey.joints) {
    for (const auto& position : joint.positions) {
      if (position.removal != nullptr) act(joint, position, position.removal->content);
    }
  }
}

void count_out(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    std::vector<int> missing;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) missing.push_back(position.position);
    }
    const auto out = joint.positions.size() - missing.size();
    if (out == 0 || missing.empty()) continue;
    deviations.push_back(
        flag_joint(kCountOut, Level::Hold, joint,
                   fmt::format("{} of {} fasteners are recorded as out; not recorded: {}", out,
                               joint.positions.size(), record::write_positions(missing)),
                   fmt::format("count what is in the bag, then record the rest: out {}/{}",
                               joint.joint->code, record::write_positions(missing))));
  }
}

void found_empty(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    if (removal.broke != BreakLoose::Empty) return;
    deviations.push_back(flag_position(
        kFoundEmpty, Level::Hold, joint, position.position,
        "the hole was empty before anything was touched",
        "find out whether a fastener belongs there; look for where it went, and get one of the "
        "right size, length and grade"));
  });
}

void break_loose(const Case& subject, std::vector<Deviation>& deviations) {
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    const auto flag = [&](Level level, const char* says, const char* what_to_do) {
      deviations.push_back(
          flag_position(kBreakLoose, level, joint, position.position, says, what_to_do));
    };
    if (removal.broke == BreakLoose::Sheared) {
      flag(Level::Hold, "the fastener sheared",
           "get the rest out, check the thread in the part, and renew the fastener");
    } else if (removal.broke == BreakLoose::AlreadyLoose) {
      flag(Level::Hold, "the fastener was loose before it was touched",
           "look for fretting, a worn seat or a stretched fastener, and compare its siblings");
    } else if (removal.broke == BreakLoose::Seized) {
      flag(Level::Check, "the fastener was seized",
           "clean and check both threads; renew it where the thread is pulled");
    }
  });
}

void other_fastener(const Case& subject, std::vector<Deviation>& deviations) {
  const finding::OddLengths odd_lengths(subject.survey);
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    const std::string text = finding::other_fastener(*joint.joint, removal);
    if (text.empty()) return;
    const auto partner = odd_lengths.swapped_with(*joint.joint, removal);
    deviations.push_back(flag_position(
        kOtherFastener, Level::Hold, joint, position.position,
        partner ? fmt::format("{}; {} has the length that belongs here: swapped", text, *partner)
                : text,
        "put the right fastener in; a short one holds on too few threads, a long one may bottom "
        "out in a blind hole"));
  });
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

// Some of a joint went into a bag, and of others nobody knows where they are.
void bag_missing(const Case& subject, std::vector<Deviation>& deviations) {
  for (const auto& joint : subject.survey.joints) {
    std::vector<int> nowhere;
    int bagged = 0;
    for (const auto& position : joint.positions) {
      if (position.removal == nullptr) continue;
      const auto& removal = position.removal->content;
      if (!removal.bag.empty()) {
        ++bagged;
      } else if (removal.broke != BreakLoose::Empty && removal.broke != BreakLoose::Sheared) {
        nowhere.push_back(position.position);
      }
    }
    if (bagged == 0 || nowhere.empty()) continue;
    deviations.push_back(flag_joint(
        kBagMissing, Level::Check, joint,
        fmt::format("{} are in a bag, but no bag is recorded for {}", bagged,
                    record::write_positions(nowhere)),
        "count what is in the bag against the holes; strike the line and enter it with its bag"));
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
  std::unordered_map<std::string, std::set<int>> renewed;
  for (const auto& entry : subject.job.renewals) {
    renewed[record::folded_code(entry.content.joint)].insert(entry.content.positions.begin(),
                                                             entry.content.positions.end());
  }
  for (const auto& work : subject.work->joints()) {
    const auto& code = work.state->joint->code;
    const auto fresh = renewed.find(record::folded_code(code));
    for (const auto& position : work.state->positions) {
      if (position.removal == nullptr || work.done_at(position.position).empty()) continue;
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

}  // namespace

constinit const Rule kBagMissing{
    "bag missing", "fasteners without a bag where their siblings have one", bag_missing};
constinit const Rule kNotRenewed{
    "not renewed", "holes whose fastener sheared or was missing, tightened without a new one",
    not_renewed};
constinit const Rule kCountOut{"count out", "fasteners recorded as out against the joint's count",
                               count_out};
constinit const Rule kFoundEmpty{"found empty", "holes that were empty at teardown", found_empty};
constinit const Rule kBreakLoose{"break loose", "fasteners that were loose, sheared or seized",
                                 break_loose};
constinit const Rule kOtherFastener{
    "other fastener", "size, length or grade that is not the joint's; lengths swapped",
    other_fastener};
constinit const Rule kOneTime{"one-time fastener", "one-time fasteners that have not been renewed",
                              one_time};

}  // namespace audit
