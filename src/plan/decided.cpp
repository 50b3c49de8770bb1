#include "plan/decided.h"

#include <algorithm>

#include "plan/new_fasteners.h"
#include "record/address.h"
#include "record/current_decisions.h"

namespace plan {
namespace {

using record::Decision;

// Somebody tightened it between its coming out and this moment.
bool was_in(const record::Job& job, std::string_view joint, int position,
            const record::Stamp* came_out, const record::Stamp& moment) {
  return std::ranges::any_of(job.tightenings, [&](const auto& entry) {
    return record::is_work(entry.content) && record::same_code(entry.content.joint, joint) &&
           std::ranges::find(entry.content.positions, position) != entry.content.positions.end() &&
           record::is_earlier(entry.stamp, moment) &&
           (came_out == nullptr || record::is_later(entry.stamp, *came_out));
  });
}

bool was_tightened(const record::Job& job, std::string_view joint, int position) {
  return std::ranges::any_of(job.tightenings, [&](const auto& entry) {
    return record::is_work(entry.content) && record::same_code(entry.content.joint, joint) &&
           std::ranges::find(entry.content.positions, position) != entry.content.positions.end();
  });
}

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
  for (const auto& [entry, named] : decisions) {
    const auto& [stamp, disposition] = *entry;
    const auto* joint = finding::joint_in(survey, disposition.joint);
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
            (!is_past && was_in(job, joint->joint->code, number, came_out, *at.renew)) ||
            is_old_in(new_fasteners.at(joint->joint->code, number), *at.renew);
      } else if (disposition.decision == Decision::UseAsIs && !is_past) {
        at.as_is.insert(disposition.rule);
        const bool is_empty = position.removal != nullptr &&
                              position.removal->content.broke == record::BreakLoose::Empty &&
                              disposition.rule == kFoundEmptyRule;
        // Of a joint that was tightened where it sat it says that this is right.
        const bool is_untouched =
            disposition.rule == kNeverOutRule && !was_tightened(job, joint->joint->code, number);
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
