#include "cli/tightening_work.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/lookup.h"
#include "failure/failure.h"
#include "progress/hold_point_state.h"
#include "progress/second_check.h"
#include "progress/tightening_remarks.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "screen/progress_answer.h"
#include "words/line_text.h"

namespace cli {
namespace {

using progress::Step;
using Stands = Step::Stands;

// The steps of the positions in one pass. All have to ask for the same, since one line records one
// torque.
std::vector<const Step*> steps_in_pass(const progress::Progress& progress, const std::string& joint,
                                       const std::vector<int>& positions, int pass) {
  std::vector<const Step*> steps;
  for (const int position : positions) {
    const auto* step = progress.step(joint, pass, position);
    if (step == nullptr) {
      throw failure::InputError(fmt::format("{} has no pass {}; see \"boltwitness sequence {}\"",
                                            record::write_address(joint, position), pass, joint));
    }
    steps.push_back(step);
  }
  const auto target = plan::target_of(steps.front()->planned().pass);
  for (const auto* step : steps) {
    if (plan::target_of(step->planned().pass) == target) continue;
    throw failure::InputError(
        fmt::format("{} and {} have different torques in pass {}; record them apart",
                    record::write_address(joint, steps.front()->position),
                    record::write_address(joint, step->position), pass));
  }
  return steps;
}

// The lowest pass in which one of the positions is still open; else the lowest left out.
int pass_due(const progress::Progress& progress, const TighteningWork& work) {
  std::optional<int> open;
  std::optional<int> left_out;
  for (const int position : work.positions) {
    for (const auto* step : progress.steps_of(work.joint, position)) {
      auto& lowest = step->stands == Stands::Open ? open : left_out;
      if (step->stands == Stands::Done) continue;
      if (!lowest || step->pass_number() < *lowest) lowest = step->pass_number();
    }
  }
  if (open) return *open;
  if (left_out) return *left_out;
  throw failure::Refusal(
      fmt::format("every pass of {} is done; name the pass with --pass to record one of them again",
                  record::write_address(work.joint, work.positions)));
}

// The last pass of the position: what a second person looks at.
int last_pass(const progress::Progress& progress, const TighteningWork& work) {
  return progress.steps_of(work.joint, work.positions.front()).back()->pass_number();
}

bool needs_wrench(const Step& step) {
  const auto kind = step.planned().pass.kind;
  return (kind == record::PassKind::Torque || kind == record::PassKind::Check) &&
         step.planned().pass.aim;
}

void set_wrench(record::Tightening& tightening, const TighteningWork& work, const Step& step,
                const logbook::Logbook& logbook) {
  const auto& planned = step.planned().setting;
  if (work.wrench.empty() && !work.setting) {
    if (!needs_wrench(step) || !work.skipped_why.empty()) return;
    if (!planned) {
      throw failure::UsageError(
          "the plan has no wrench for this; say which one with --wrench and --set");
    }
    tightening.wrench = planned->wrench->name;
    tightening.setting = planned->setting;
    tightening.unit = planned->wrench->scale.unit;
  } else {
    if (work.wrench.empty() && !planned) throw failure::UsageError("--set needs --wrench");
    const auto wrench =
        work.wrench.empty() ? *planned->wrench : wrench_or_refuse(logbook, work.wrench).content;
    const bool is_planned = planned && planned->wrench->name == wrench.name;
    if (!work.setting && !is_planned && needs_wrench(step)) {
      throw failure::UsageError(
          fmt::format("the plan does not have {} here; say what it was set to with "
                      "--set, on its scale",
                      wrench.name));
    }
    tightening.wrench = wrench.name;
    tightening.unit = wrench.scale.unit;
    tightening.setting = work.setting;
    if (!work.setting && is_planned) tightening.setting = planned->setting;
    if (tightening.setting) check_settable(wrench, *tightening.setting);
  }
  if (work.adapter) tightening.adapter = *work.adapter;
}

void check_turned(const TighteningWork& work, const Step& step) {
  if (!work.turned || step.planned().pass.kind == record::PassKind::Angle) return;
  throw failure::UsageError(fmt::format("--turned belongs to an angle pass; pass {} of {} is {}",
                                        step.pass_number(), work.joint,
                                        record::word_of(step.planned().pass.kind)));
}

}  // namespace

std::string final_value_question(const Step& step) {
  const auto& joint = *step.joint->state->joint;
  return fmt::format("{}: final value when {}. Is it so now?", joint.code, joint.final_when);
}

void check_settable(const record::Wrench& wrench, double setting) {
  if (setting <= wrench.scale.high) return;
  throw failure::InputError(
      fmt::format("{} cannot be set to {}: its scale is {}", wrench.name,
                  quantity::write_exact(quantity::StatedTorque{setting, wrench.scale.unit}),
                  record::write_exact(wrench.scale)));
}

void check_second_person(const progress::Progress& progress, const std::string& joint,
                         const std::vector<int>& positions, const std::string& who) {
  for (const int position : positions) {
    const auto address = record::write_address(joint, position);
    if (!progress.has_final_value(joint, position)) {
      throw failure::Refusal(fmt::format(
          "{} has not reached its final value; a second check comes after it", address));
    }
    if (progress::is_same_person(progress, joint, position, who)) {
      throw failure::Refusal(fmt::format(
          "{} tightened {}; the check has to be made by another person (name them with --by)", who,
          address));
    }
  }
}

record::PassTarget target_in_plan(const progress::Progress& progress, const std::string& joint,
                                  const std::vector<int>& positions, int pass) {
  return plan::target_of(steps_in_pass(progress, joint, positions, pass).front()->planned().pass);
}

void refuse_behind_hold_point(const record::Job& job, const std::string& joint,
                              record::Moment now) {
  std::string text;
  for (const auto& state : progress::in_the_way(job, joint, now)) {
    text += (text.empty() ? "" : "; ") + progress::in_words(state);
  }
  if (!text.empty())
    throw failure::Refusal(fmt::format("{} is behind a hold point: {}", joint, text));
}

void record_work(const terminal::Session& session, const TighteningWork& work) {
  auto logbook = session.open_to_write();
  const auto writer = session.writer();
  logbook::Recording recording(logbook, writer);
  strike_replaced(logbook, recording, work.correction, {"tightening"});
  const auto joint = joint_or_refuse(logbook, work.joint).content;
  check_positions(joint, work.positions);
  const progress::Reassembly now(logbook.job(), session.day(),
                                 work.adapter.value_or(plan::ThroughAdapter{}));
  refuse_behind_hold_point(now.job, joint.code, writer.done_at);
  if (work.second_check) check_second_person(now.progress, joint.code, work.positions, writer.by);

  const int pass = work.pass           ? *work.pass
                   : work.second_check ? last_pass(now.progress, work)
                                       : pass_due(now.progress, work);
  const auto& step = *steps_in_pass(now.progress, work.joint, work.positions, pass).front();
  check_turned(work, step);
  record::Tightening tightening;
  tightening.joint = joint.code;
  tightening.positions = work.positions;
  tightening.pass = pass;
  tightening.target = plan::target_of(step.planned().pass);
  tightening.turned = work.turned;
  tightening.skipped_why = work.skipped_why;
  tightening.second_check = work.second_check;
  set_wrench(tightening, work, step, logbook);

  const auto remarks = progress::remarks_on(tightening, now, session.day());
  const bool waits = step.joint->stage == plan::Stage::Final;
  const auto stamp = recording.append(tightening);
  recording.commit();
  session.recorded({{stamp, words::line_text(tightening)}});
  if (record::is_work(tightening) && !work.is_time_confirmed && waits) {
    session.remark(fmt::format("{}: its final value is set when {}; recorded as it happened",
                               joint.code, joint.final_when));
  }
  for (const auto& remark : remarks) session.remark(remark + "; recorded as it happened");
}

}  // namespace cli
