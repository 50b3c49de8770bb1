#include "words/before_joint.h"

#include <fmt/format.h>

#include "progress/fluid_balance.h"
#include "record/address.h"
#include "words/fluid_in_words.h"
#include "words/hold_point_in_words.h"
#include "words/item_in_words.h"

namespace words {
namespace {

void add_new_fasteners(const std::vector<const plan::Renewing*>& renewals,
                       std::vector<Condition>& conditions) {
  std::vector<int> here;
  std::vector<int> to_come;
  std::vector<int> look_first;
  std::vector<int> old_in;
  for (const auto* renewing : renewals) {
    auto& list = renewing->old_went_back != nullptr ? old_in
                 : renewing->has_arrived            ? here
                 : renewing->is_certain()           ? to_come
                                                    : look_first;
    list.push_back(renewing->position);
  }
  const auto add = [&](bool met, const std::vector<int>& positions, std::string_view says) {
    if (positions.empty()) return;
    conditions.push_back({met, fmt::format("{} at {}", says, record::write_positions(positions))});
  };
  add(true, here, "New fasteners are here:");
  add(false, old_in, "New fasteners came when the old ones were back in; take those out first:");
  add(false, to_come, "New fasteners have yet to come:");
  add(false, look_first, "Came out seized, look at the thread first:");
}

bool is_passed(const progress::HoldPointState& state) {
  return state.stands == progress::HoldPointState::Stands::Passed;
}

}  // namespace

BeforeJoints::BeforeJoints(const record::Job& job, const finding::Survey& survey,
                           const audit::Audit& audit, record::Moment now)
    : job_(job),
      renewals_(plan::renewal_list(job, survey)),
      hold_points_(progress::hold_points(job, now)),
      items_(progress::item_counts(job)) {
  for (const auto& deviation : audit.deviations) {
    if (deviation.holds_up()) holds_[record::folded_code(deviation.joint)].push_back(&deviation);
  }
  for (const auto& work : audit.to_do) {
    // What is tightened again is done by the passes themselves.
    const auto& decided = work.decision->content;
    if (decided.decision == record::Decision::ReTorque) continue;
    to_do_[record::folded_code(decided.joint)].push_back(&work);
  }
  for (const auto& renewing : renewals_) renewals_of_[renewing.joint].push_back(&renewing);
}

std::vector<Condition> BeforeJoints::before(const finding::JointState& joint) const {
  std::vector<Condition> conditions;
  const auto& code = joint.joint->code;
  if (const auto holds = holds_.find(record::folded_code(code)); holds != holds_.end()) {
    for (const auto* deviation : holds->second) {
      conditions.push_back(
          {false,
           fmt::format("Open hold{}: {}: {}",
                       deviation->position ? fmt::format(" at {}", *deviation->position) : "",
                       deviation->rule, deviation->says)});
    }
  }
  if (const auto to_do = to_do_.find(record::folded_code(code)); to_do != to_do_.end()) {
    for (const auto* work : to_do->second) {
      conditions.push_back(
          {false, fmt::format("Decided, not done: {}: {}", work->decision->content.deviation,
                              progress::in_words(*work))});
    }
  }
  for (const auto& state : hold_points_) {
    if (!progress::guards(*state.point, code)) continue;
    conditions.push_back({is_passed(state), fmt::format("Hold point {}, {}: {}", state.point->code,
                                                        state.point->what, how_it_stands(state))});
  }
  if (const auto renewals = renewals_of_.find(&joint); renewals != renewals_of_.end()) {
    add_new_fasteners(renewals->second, conditions);
  }
  for (const auto& count : items_) {
    if (!record::same_code(count.item->before, code)) continue;
    conditions.push_back(
        {count.missing() == 0, fmt::format("Back before it is closed: {}, {}: {}", count.item->code,
                                           count.item->what, count_in_words(count))});
  }
  return conditions;
}

std::vector<Condition> BeforeJoints::hold_points() const {
  std::vector<Condition> conditions;
  for (const auto& state : hold_points_) {
    conditions.push_back({is_passed(state),
                          fmt::format("{}, {}; before {}: {}", state.point->code, state.point->what,
                                      what_is_behind(*state.point), how_it_stands(state))});
  }
  return conditions;
}

std::vector<Condition> BeforeJoints::goes_back() const {
  std::vector<Condition> conditions;
  for (const auto& balance : progress::fluid_balances(job_)) {
    conditions.push_back({balance.still_to_go_back <= quantity::Volume::millilitres(0),
                          fmt::format("{}: {}", balance.fluid, balance_in_words(balance))});
  }
  for (const auto& count : items_) {
    conditions.push_back(
        {count.missing() == 0,
         fmt::format("{}, {}{}: {}", count.item->code, count.item->what,
                     count.item->before.empty() ? "" : ", before " + count.item->before,
                     count_in_words(count))});
  }
  return conditions;
}

}  // namespace words
