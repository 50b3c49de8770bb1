#include "plan/renewal_list.h"

#include <algorithm>
#include <set>
#include <utility>

#include "finding/other_fastener.h"
#include "finding/overstretched.h"
#include "finding/self_locking.h"
#include "finding/specification_group.h"
#include "plan/broken_loose.h"
#include "plan/decided.h"
#include "plan/new_fasteners.h"
#include "plan/turned_stripes.h"

namespace plan {
namespace {

using finding::JointState;
using finding::PositionState;
using record::BreakLoose;

// The positions of a joint whose specification fits new bolts between its passes, and those that
// were found past their yield.
struct ByGroup {
  std::set<int> between_passes;
  std::set<int> overstretched;
};

ByGroup by_group(const JointState& joint) {
  ByGroup found;
  for (const auto& group : finding::specification_groups(joint)) {
    if (group.specified != nullptr &&
        std::ranges::any_of(group.specified->procedure.steps, [](const auto& step) {
          return std::holds_alternative<record::RenewStep>(step);
        })) {
      found.between_passes.insert(group.positions.begin(), group.positions.end());
    }
    const auto limits = finding::bolt_limits(*joint.joint, group.specified == nullptr
                                                               ? fastener::Condition::AsReceived
                                                               : group.specified->condition);
    if (!limits) continue;
    for (const int position : group.positions) {
      const auto* finding = joint.at(position).finding();
      if (finding != nullptr && finding::is_overstretched(*finding, *limits)) {
        found.overstretched.insert(position);
      }
    }
  }
  return found;
}

// What the way in which it came out asks for.
std::vector<RenewalReason> reasons_for(const finding::OddLengths& odd_lengths,
                                       const JointState& joint, const PositionState& position,
                                       const ByGroup& groups) {
  std::vector<RenewalReason> reasons;
  if (position.removal == nullptr) return reasons;
  const auto& removal = position.removal->content;
  if (joint.joint->one_time) reasons.push_back(RenewalReason::OneTime);
  if (groups.between_passes.contains(position.position)) {
    reasons.push_back(RenewalReason::BetweenPasses);
  }
  if (removal.broke == BreakLoose::Sheared) reasons.push_back(RenewalReason::Sheared);
  if (removal.damaged_thread && *removal.damaged_thread != record::DamagedThread::Hole) {
    reasons.push_back(RenewalReason::DamagedThread);
  }
  if (removal.broke == BreakLoose::Empty) reasons.push_back(RenewalReason::FoundEmpty);
  if (!finding::other_fastener(*joint.joint, removal).empty() &&
      !odd_lengths.swapped_with(*joint.joint, removal)) {
    reasons.push_back(RenewalReason::OtherFastener);
  }
  if (groups.overstretched.contains(position.position)) {
    reasons.push_back(RenewalReason::Overstretched);
  }
  if (removal.broke == BreakLoose::Seized) reasons.push_back(RenewalReason::Seized);
  return reasons;
}

// A new one has gone in since, and come out again: what was asked of the one before is past.
bool is_past(const NewFastener& fresh, const record::Stamp& asked) {
  return fresh.went_in != nullptr && record::is_later(*fresh.went_in, asked) && !fresh.is_in;
}

// One lies ready, or is the one that is in and went in after it was asked for.
bool has_arrived(const NewFastener& fresh, const record::Stamp* asked) {
  if (fresh.is_ready) return true;
  return fresh.is_in && (asked == nullptr || record::is_later(*fresh.went_in, *asked));
}

}  // namespace

std::string_view rule_of(RenewalReason reason) {
  switch (reason) {
    case RenewalReason::OneTime:
      return kOneTimeRule;
    case RenewalReason::DamagedThread:
      return kDamagedThreadRule;
    case RenewalReason::FoundEmpty:
      return kFoundEmptyRule;
    case RenewalReason::OtherFastener:
      return kOtherFastenerRule;
    case RenewalReason::Overstretched:
      return kOverstretchedRule;
    case RenewalReason::Seized:
    case RenewalReason::Sheared:
      return kBreakLooseRule;
    case RenewalReason::BetweenPasses:
    case RenewalReason::TurnedSpent:
    case RenewalReason::TestedSpent:
    case RenewalReason::Decided:
      break;
  }
  return {};
}

std::string_view in_words(RenewalReason reason) {
  switch (reason) {
    case RenewalReason::OneTime:
      return "one-time";
    case RenewalReason::BetweenPasses:
      return "new ones between the passes";
    case RenewalReason::Sheared:
      return "sheared";
    case RenewalReason::DamagedThread:
      return "damaged thread";
    case RenewalReason::FoundEmpty:
      return "found empty";
    case RenewalReason::OtherFastener:
      return "other fastener came out";
    case RenewalReason::Overstretched:
      return "overstretched";
    case RenewalReason::TurnedSpent:
      return "found turned, and not used again once slackened";
    case RenewalReason::TestedSpent:
      return "tested since it was tightened";
    case RenewalReason::Decided:
      return "decided";
    case RenewalReason::Seized:
      return "seized";
  }
  return "one-time";
}

bool Renewing::is_certain() const {
  return std::ranges::any_of(reasons,
                             [](RenewalReason reason) { return reason != RenewalReason::Seized; });
}

bool Renewing::is_for(RenewalReason reason) const {
  return std::ranges::find(reasons, reason) != reasons.end();
}

std::vector<Renewing> renewal_list(const record::Job& job, const finding::Survey& survey,
                                   RenewalsBy by) {
  const NewFasteners new_fasteners(job, survey);
  const Decided decided(job, survey);
  const TurnedStripes turned(job);
  const BrokenLoose broken_loose(job);
  const finding::OddLengths odd_lengths(survey);
  std::vector<Renewing> list;
  for (const auto& joint : survey.joints) {
    const auto groups = by_group(joint);
    for (const auto& position : joint.positions) {
      const auto& code = joint.joint->code;
      const auto& fresh = new_fasteners.at(code, position.position);
      const auto& at = decided.at(code, position.position);
      auto reasons = reasons_for(odd_lengths, joint, position, groups);
      if (by == RenewalsBy::Decisions) {
        // What was tightened there without a new one on record may be decided to stay.
        const bool stays = at.as_is.contains(kNotRenewedRule);
        std::erase_if(reasons, [&](RenewalReason reason) {
          const bool is_missing =
              reason == RenewalReason::Sheared || reason == RenewalReason::FoundEmpty;
          return at.as_is.contains(rule_of(reason)) || (stays && is_missing);
        });
      }
      // What is asked of the one that was in then, the last time.
      const record::Stamp* asked = nullptr;
      const auto ask = [&](RenewalReason reason, const record::Stamp& when) {
        if (is_past(fresh, when)) return;
        reasons.insert(std::ranges::find(reasons, RenewalReason::Seized), reason);
        if (asked == nullptr || record::is_later(when, *asked)) asked = &when;
      };
      if (const auto* look = turned.last(code, position.position);
          look != nullptr && finding::is_spent_once_slackened(joint, position.position)) {
        ask(RenewalReason::TurnedSpent, look->stamp);
      }
      if (const auto& tested = broken_loose.at(code, position.position);
          tested.test != nullptr && !tested.is_out_since && joint.joint->one_time) {
        ask(RenewalReason::TestedSpent, *tested.test);
      }
      if (at.renew != nullptr && by == RenewalsBy::Decisions)
        ask(RenewalReason::Decided, *at.renew);
      if (reasons.empty()) continue;
      Renewing renewing{&joint, position.position, std::move(reasons)};
      renewing.has_arrived = has_arrived(fresh, asked);
      renewing.asked = asked;
      // A specification that puts new ones in between its passes begins with the old ones.
      if (!renewing.is_for(RenewalReason::BetweenPasses)) {
        renewing.old_went_back = fresh.old_went_back;
      }
      list.push_back(std::move(renewing));
    }
  }
  return list;
}

}  // namespace plan
