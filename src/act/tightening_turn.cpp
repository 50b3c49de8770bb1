#include "act/tightening_turn.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "act/hold_point_entry.h"
#include "audit/audit.h"
#include "failure/failure.h"
#include "progress/cover_times.h"
#include "progress/final_value.h"
#include "progress/finish_commands.h"
#include "record/address.h"
#include "words/before_joint.h"

namespace act {
namespace {

const std::string& joint_code_of(const progress::Step& step) {
  return step.joint->state->joint->code;
}

progress::CoverTimes cover_times(const progress::Reassembly& now) {
  return {now.job, now.survey, plan::Decided(now.job, now.survey)};
}

// What is under a cover that is on cannot be reached: it comes off first.
void refuse_under_cover(const progress::Reassembly& now, const progress::Step& step,
                        record::Moment moment) {
  const auto covers = cover_times(now);
  const auto on = covers.over(joint_code_of(step), moment);
  if (on.empty()) return;
  throw failure::Refusal(fmt::format("{} is on over {} (line {}); open it first: boltwitness {}",
                                     on.front().cover->joint->code, joint_code_of(step),
                                     on.front().closed->line,
                                     covers.command_to_open(joint_code_of(step), moment)));
}

// What was stretched once already is not led on to be stretched again.
void refuse_spent(const progress::Progress& progress, const progress::Step& step) {
  const auto* spent = progress.spent_by(joint_code_of(step), step.position);
  if (spent == nullptr) return;
  std::vector<int> positions;
  for (const auto& position : step.joint->state->positions) {
    if (progress.spent_by(joint_code_of(step), position.position) != nullptr) {
      positions.push_back(position.position);
    }
  }
  throw failure::Refusal(fmt::format(
      "{} is one-time and was turned by its angle already (line {}); take it out and fit a new "
      "one: boltwitness out {}",
      record::write_address(joint_code_of(step), step.position), spent->stamp.line,
      record::write_address(joint_code_of(step), positions)));
}

// What is covered cannot be reached any more, so the guided way does not lead past it.
void refuse_to_cover(const progress::Progress& progress, const progress::Step& step) {
  for (const auto& unmet : progress::unfinished_before(progress, *step.joint->state->joint)) {
    if (unmet.kind != plan::Precedence::Kind::Covers) continue;
    throw failure::Refusal(progress::in_words(unmet) +
                           "; finish it first (one line records what was done all the same)");
  }
}

// What is dated before that which it comes after counts for nothing, so that the same step would be
// led to again, and pulled again, for ever.
void refuse_before_what_it_follows(const progress::Progress& progress, const progress::Step& step,
                                   record::Moment moment) {
  const auto* latest = progress.came_out(joint_code_of(step), step.position);
  for (const auto* before : progress.steps_of(joint_code_of(step), step.position)) {
    if (before->stands == progress::Step::Stands::Open) continue;
    const auto& stamp = before->entry->stamp;
    if (latest == nullptr || record::is_earlier(*latest, stamp)) latest = &stamp;
  }
  if (latest == nullptr || latest->done_at <= moment) return;
  throw failure::Refusal(fmt::format(
      "{} stands as of {} (line {}), which is later than {}: what is done next would be dated "
      "before it and count for nothing; put the clock right, or give the time when it is done",
      record::write_address(joint_code_of(step), step.position),
      record::write_local(latest->done_at), latest->line, record::write_local(moment)));
}

}  // namespace

void refuse_out_of_turn(const progress::Reassembly& now, const progress::Step& step,
                        record::Moment moment) {
  if (const auto behind = behind_hold_point(now.job, joint_code_of(step), moment);
      !behind.empty()) {
    throw failure::Refusal(behind);
  }
  refuse_under_cover(now, step, moment);
  refuse_spent(now.progress, step);
  refuse_to_cover(now.progress, step);
  refuse_before_what_it_follows(now.progress, step, moment);
}

std::optional<progress::Unmarked> to_be_marked_before(const progress::Reassembly& now,
                                                      const progress::Step& step,
                                                      record::Moment moment) {
  const auto covers = cover_times(now);
  for (auto& unmarked :
       progress::unmarked_before(now.progress, now.survey, *step.joint->state->joint)) {
    if (covers.over(unmarked.joint, moment).empty()) return std::move(unmarked);
  }
  return std::nullopt;
}

std::vector<int> checked_together(const progress::Progress& progress,
                                  const progress::Unmarked& unmarked) {
  const auto last = [&](int position) -> const progress::Step& {
    return *progress.steps_of(unmarked.joint, position).back();
  };
  const auto& first = last(unmarked.unchecked.front());
  std::vector<int> together;
  for (const int position : unmarked.unchecked) {
    if (last(position).pass_number() == first.pass_number() &&
        plan::target_of(last(position).planned().pass) == plan::target_of(first.planned().pass)) {
      together.push_back(position);
    }
  }
  return together;
}

std::vector<std::string> unmet_before(const progress::Reassembly& now,
                                      const finding::JointState& joint, record::Moment moment) {
  const auto audit =
      audit::run_for_joint({now.job, now.survey, moment, &now.progress}, joint.joint->code);
  std::vector<std::string> unmet;
  const auto is_out = [](const auto& position) { return position.removal != nullptr; };
  if (std::ranges::none_of(joint.positions, is_out)) {
    unmet.push_back(
        fmt::format("none of it is recorded as out: boltwitness bench {}", joint.joint->code));
  }
  for (const auto& waits : progress::unfinished_before(now.progress, *joint.joint)) {
    unmet.push_back(progress::in_words(waits));
  }
  for (const auto& [met, says] :
       words::BeforeJoints(now.job, now.survey, audit, moment).before(joint)) {
    if (!met) unmet.push_back(says);
  }
  return unmet;
}

std::vector<StripesDue> positions_to_stripe(const progress::Reassembly& now,
                                            const std::optional<std::string>& joint) {
  std::vector<StripesDue> due;
  for (const auto& state : now.survey.joints) {
    const auto& code = state.joint->code;
    if (joint && !record::same_code(*joint, code)) continue;
    StripesDue here{&state, {}, {}};
    for (int position = 1; position <= state.joint->count; ++position) {
      if (!now.progress.has_final_value(code, position)) continue;
      if (now.progress.finish_of(code, position).stripe != nullptr) continue;
      if (auto why = progress::why_not_final(now.job, now.progress, code, position); !why.empty()) {
        here.why_not.push_back(std::move(why));
        continue;
      }
      here.positions.push_back(position);
    }
    if (!here.positions.empty() || !here.why_not.empty()) due.push_back(std::move(here));
  }
  return due;
}

std::vector<std::string> stripes_due(const progress::Reassembly& now,
                                     const std::optional<std::string>& joint,
                                     record::Moment moment) {
  const auto covers = cover_times(now);
  std::vector<std::string> says;
  for (auto& due : positions_to_stripe(now, joint)) {
    for (auto& why : due.why_not) says.push_back(std::move(why));
    if (due.positions.empty()) continue;
    const auto& what = *due.joint->joint;
    const auto open_first = covers.command_to_open(what.code, moment);
    says.push_back(fmt::format(
        "{}draw the final stripe now, then record it: boltwitness {}{}",
        open_first.empty() ? "" : "what covers it is on: boltwitness " + open_first + "; then ",
        progress::stripe_command(what, due.positions), progress::reading_to_fill_in(what)));
  }
  return says;
}

}  // namespace act
