#include <fmt/format.h>

#include <map>

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
  for_each_removed(subject, [&](const JointState& joint, const PositionState& position,
                                const record::Removal& removal) {
    const std::string text = finding::other_fastener(*joint.joint, removal);
    if (text.empty()) return;
    const auto partner = finding::swapped_with(subject.survey, *joint.joint, removal);
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

}  // namespace

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
