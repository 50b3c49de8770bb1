#include "plan/decided.h"

#include <algorithm>
#include <string>
#include <unordered_map>
#include <vector>

#include "finding/joint_index.h"
#include "plan/new_fasteners.h"
#include "record/address.h"
#include "record/current_decisions.h"

namespace plan {
namespace {

using record::Decision;

// The work on each joint, so that a decision goes through no other's.
class Tightened {
 public:
  explicit Tightened(const record::Job& job) {
    for (const auto& entry : job.tightenings) {
      if (record::is_work(entry.content)) {
        of_joint_[record::folded_code(entry.content.joint)].push_back(&entry);
      }
    }
  }

  // Somebody tightened it between its coming out and this moment.
  [[nodiscard]] bool was_in(std::string_view joint, int position, const record::Stamp* came_out,
                            const record::Stamp& moment) const {
    return any_at(joint, position, [&](const record::Stamp& stamp) {
      return record::is_earlier(stamp, moment) &&
             (came_out == nullptr || record::is_later(stamp, *came_out));
    });
  }

  [[nodiscard]] bool was_tightened(std::string_view joint, int position) const {
    return any_at(joint, position, [](const record::Stamp&) { return true; });
  }

 private:
  template <class IsMeant>
  [[nodiscard]] bool any_at(std::string_view joint, int position, const IsMeant& is_meant) const {
    const auto found = of_joint_.find(record::folded_code(joint));
    return found != of_joint_.end() && std::ranges::any_of(found->second, [&](const auto* entry) {
             const auto& named = entry->content.positions;
             return std::ranges::find(named, position) != named.end() && is_meant(entry->stamp);
           });
  }

  using Entries = std::vector<const record::Entry<record::Tightening>*>;
  std::unordered_map<std::string, Entries> of_joint_;  // by folded code
};

// The old one went back in all the same, where none has gone in since that was decided.
bool is_old_in(const NewFastener& fresh, const record::Stamp& renew) {
  if (fresh.old_in == nullptr) return false;
  const bool was_done = fresh.went_in != nullptr && record::is_later(*fresh.went_in, renew) &&
                        record::is_earlier(*fresh.went_in, *fresh.old_in);
  return !was_done;
}

}  // namespace

Decided::Decided(const record::Job& job, const finding::Survey& survey) {
  const auto decisions = record::current_decisions(job);
  if (decisions.empty()) return;
  const NewFasteners new_fasteners(job, survey);
  const finding::JointIndex joints(survey);
  const Tightened tightened(job);
  for (const auto& [entry, named] : decisions) {
    const auto& [stamp, disposition] = *entry;
    const auto* joint = joints.find(disposition.joint);
    if (joint == nullptr) continue;
    for (const auto& position : joint->positions) {
      const int number = position.position;
      if (!named.empty() && !std::ranges::binary_search(named, number)) continue;
      const auto* came_out = position.removal == nullptr ? nullptr : &position.removal->stamp;
      auto& at = places_[{record::folded_code(joint->joint->code), number}];
      const bool is_past = came_out != nullptr && record::is_earlier(stamp, *came_out);
      if (disposition.decision == Decision::Renew) {
        if (at.renew == nullptr || record::is_later(stamp, *at.renew)) at.renew = &stamp;
        at.is_renewed_in_place =
            (!is_past && tightened.was_in(joint->joint->code, number, came_out, *at.renew)) ||
            is_old_in(new_fasteners.at(joint->joint->code, number), *at.renew);
      } else if (disposition.decision == Decision::UseAsIs && !is_past) {
        at.as_is.insert(disposition.rule);
        const bool is_empty = position.removal != nullptr &&
                              position.removal->content.broke == record::BreakLoose::Empty &&
                              disposition.rule == kFoundEmptyRule;
        // Of a joint that was tightened where it sat it says that this is right.
        const bool is_untouched = disposition.rule == kNeverOutRule &&
                                  !tightened.was_tightened(joint->joint->code, number);
        const bool never_came_out =
            position.removal == nullptr && (disposition.rule == kCountOutRule || is_untouched);
        if (is_empty || never_came_out) at.left_alone = &stamp;
        if (position.removal == nullptr && disposition.rule == kNeverOutRule) at.never_out = &stamp;
      }
    }
  }
}

const DecidedAt& Decided::at(std::string_view joint, int position) const {
  static const DecidedAt kNone;
  if (places_.empty()) return kNone;
  const auto found = places_.find({record::folded_code(joint), position});
  return found == places_.end() ? kNone : found->second;
}

}  // namespace plan
