#include "progress/teardown_turn.h"

#include <algorithm>

#include "finding/not_to_be_tested.h"
#include "finding/position_search.h"
#include "record/address.h"

namespace progress {
namespace {

// Out with others in one line, and in a bag: nobody meant to test it. The guide itself takes out
// one at a time, and its test may still be to come.
bool is_put_away(const PositionTeardown& at) {
  return at.removal != nullptr && at.pulls.empty() && at.finding == nullptr &&
         !at.removal->content.bag.empty() && at.removal->content.positions.size() > 1;
}

}  // namespace

std::string joint_under_way(const record::Job& job, const Teardown& teardown) {
  const record::Entry<record::Pull>* latest = nullptr;
  for (const auto& [place, state] : teardown) {
    if (state.pulls.empty() || record::joint_in(job, place.first) == nullptr) continue;
    const auto* pull = state.pulls.back();
    if (latest == nullptr || record::is_later(pull->stamp, latest->stamp)) latest = pull;
  }
  return latest == nullptr ? std::string() : latest->content.joint;
}

std::set<int> led_out_untested(const finding::JointState& joint, const Teardown& teardown,
                               const std::vector<int>& positions) {
  std::set<int> untested;
  for (const int position : positions) {
    if (!finding::not_to_be_tested(joint, position).empty() ||
        is_put_away(at(teardown, joint.joint->code, position))) {
      untested.insert(position);
    }
  }
  return untested;
}

// What must not be tested is done once it is out, as the walk takes it.
int positions_taken_apart(const finding::JointState& joint, const Teardown& teardown) {
  int done = 0;
  for (int position = 1; position <= joint.joint->count; ++position) {
    const auto& here = at(teardown, joint.joint->code, position);
    const bool is_out_untested = here.removal != nullptr && here.pulls.empty() &&
                                 !finding::not_to_be_tested(joint, position).empty();
    if (is_finished(here) || is_out_untested || is_put_away(here)) ++done;
  }
  return done;
}

const record::Stamp* last_tightened(const record::Job& job, const finding::JointState& joint) {
  const record::Stamp* last = nullptr;
  for (const auto& entry : job.tightenings) {
    if (!record::is_work(entry.content)) continue;
    if (!record::same_code(entry.content.joint, joint.joint->code)) continue;
    const bool is_in = std::ranges::any_of(entry.content.positions, [&](int position) {
      if (position > joint.joint->count) return false;
      const auto* removal = joint.at(position).removal;
      return removal == nullptr || record::is_later(entry.stamp, removal->stamp);
    });
    if (is_in && (last == nullptr || record::is_later(entry.stamp, *last))) last = &entry.stamp;
  }
  return last;
}

std::string wrench_at_hand(const record::Job& job, const finding::JointState& joint, int position,
                           const std::string& used_last, record::Day day) {
  const auto range = finding::searched_range(joint, position);
  const auto fits = [&](std::string_view name) {
    const auto* wrench = record::wrench_on(job, name, day);
    return wrench != nullptr && !record::is_out_of_calibration(*wrench, day) &&
           (!range || finding::covers(*wrench, *range));
  };
  if (!used_last.empty() && fits(used_last)) return used_last;
  const auto names = record::wrench_names(job);
  return names.size() == 1 && fits(names.front()) ? std::string(names.front()) : std::string();
}

}  // namespace progress
