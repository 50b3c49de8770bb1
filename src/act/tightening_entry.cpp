#include "act/tightening_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "act/amendment.h"
#include "act/at_page.h"
#include "act/hold_point_entry.h"
#include "act/kept_words.h"
#include "act/lookup.h"
#include "act/option_error.h"
#include "audit/audit.h"
#include "failure/failure.h"
#include "progress/final_value.h"
#include "progress/second_check.h"
#include "progress/tightening_remarks.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {
namespace {

using progress::Step;
using StepStands = Step::Stands;

std::vector<int> rising(std::vector<int> positions) {
  std::ranges::sort(positions);
  return positions;
}

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
      auto& lowest = step->stands == StepStands::Open ? open : left_out;
      if (step->stands == StepStands::Done) continue;
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

// The work as lines can hold it: a second person looks at positions whose last pass has another
// number or target, since some were tightened anew, in lines of their own.
std::vector<TighteningWork> recorded_apart(const progress::Progress& progress,
                                           const TighteningWork& work) {
  if (!work.second_check || work.pass || !work.correction.replaced_line.empty()) return {work};
  struct Alike {
    const Step* last = nullptr;  // of the first of them
    TighteningWork work;
  };
  std::vector<Alike> parts;
  for (const int position : work.positions) {
    const auto* last = progress.steps_of(work.joint, position).back();
    const auto target = plan::target_of(last->planned().pass);
    auto part = std::ranges::find_if(parts, [&](const Alike& other) {
      return other.last->pass_number() == last->pass_number() &&
             plan::same_target(plan::target_of(other.last->planned().pass), target);
    });
    if (part == parts.end()) {
      part = parts.insert(part, {last, work});
      part->work.positions.clear();
    }
    part->work.positions.push_back(position);
  }
  std::vector<TighteningWork> apart;
  apart.reserve(parts.size());
  for (auto& part : parts) apart.push_back(std::move(part.work));
  return apart;
}

// What a line of work was asked to do.
struct Asked {
  int pass = 0;
  record::PassTarget target;
  const Step* step =
      nullptr;  // of the plan as it is now; nothing where it was asked by one of then

  [[nodiscard]] const plan::WrenchSetting* planned() const {
    return step != nullptr && step->planned().setting ? &*step->planned().setting : nullptr;
  }
};

// The line that is replaced was of this pass of these positions, and what was asked there then is
// asked in no pass of that number any more, though it is in another, or not of all of them alike: a
// turned stripe has put passes before it, say. What is put right then is the line of then.
bool is_asked_by_plan_of_then(const progress::Progress& progress, const TighteningWork& work,
                              int pass, const record::Tightening& replaced) {
  if (pass != replaced.pass || !record::same_code(work.joint, replaced.joint)) return false;
  if (!std::ranges::includes(replaced.positions, rising(work.positions))) return false;
  bool differs = false;
  bool is_asked_still = false;
  bool is_one_target = true;
  const auto* first = progress.step(work.joint, pass, work.positions.front());
  const auto is_of_then = [&](const Step* step) {
    return plan::same_target(plan::target_of(step->planned().pass), replaced.target);
  };
  for (const int position : work.positions) {
    const auto* step = progress.step(work.joint, pass, position);
    is_one_target = is_one_target && step != nullptr && first != nullptr &&
                    plan::same_target(plan::target_of(step->planned().pass),
                                      plan::target_of(first->planned().pass));
    differs = differs || step == nullptr || !is_of_then(step);
    is_asked_still =
        is_asked_still || std::ranges::any_of(progress.steps_of(work.joint, position), is_of_then);
  }
  return differs && (is_asked_still || !is_one_target);
}

Asked asked_for(const progress::Progress& progress, const TighteningWork& work,
                const record::Tightening* replaced) {
  const int pass = work.pass           ? *work.pass
                   : work.second_check ? last_pass(progress, work)
                                       : pass_due(progress, work);
  if (replaced != nullptr && is_asked_by_plan_of_then(progress, work, pass, *replaced)) {
    return {pass, replaced->target, nullptr};
  }
  const auto* step = steps_in_pass(progress, work.joint, work.positions, pass).front();
  return {pass, plan::target_of(step->planned().pass), step};
}

bool needs_wrench(const TighteningWork& work, const record::PassTarget& target) {
  return target.torque && work.skipped_why.empty();
}

// The wrench and its setting: as said, else as planned.
void set_wrench(record::Tightening& tightening, const TighteningWork& work,
                const plan::WrenchSetting* planned, const WrenchNamed& wrench_named) {
  const bool is_said = !work.wrench.empty() || work.setting;
  if (!is_said && !needs_wrench(work, tightening.target)) return;
  if (work.wrench.empty() && planned == nullptr) {
    throw OptionError(
        work.setting ? "--wrench" : "--set",
        work.setting ? "a setting stands on the scale of a wrench; name it with --wrench"
                     : "a pass to a torque, and no wrench is planned for it; say which one and "
                       "what it was set to with --wrench and --set",
        failure::kWrongUsage,
        "no wrench is planned for this pass; say under Other values which one it was and what it "
        "was "
        "set to");
  }
  const auto wrench = work.wrench.empty() ? *planned->wrench : wrench_named(work.wrench);
  const bool is_planned = planned != nullptr && planned->wrench->name == wrench.name;
  tightening.wrench = wrench.name;
  tightening.unit = wrench.scale.unit;
  if (work.setting) {
    tightening.setting =
        of_option("--set", [&] { return record::setting_on(wrench, *work.setting); });
  }
  if (!work.setting && is_planned) tightening.setting = planned->setting;
  if (!tightening.setting && needs_wrench(work, tightening.target)) {
    throw OptionError("--set",
                      fmt::format("a pass to a torque, and the plan does not have {} here; "
                                  "say what it was set to with --set, on its scale",
                                  wrench.name),
                      failure::kWrongUsage,
                      fmt::format("the plan does not have {} here; say under Other values what it "
                                  "was set to, on its scale",
                                  wrench.name));
  }
  if (tightening.setting) {
    of_option("--set", [&] { check_settable(wrench, *tightening.setting); });
  }
}

void check_turned(const record::Tightening& tightening) {
  if (!tightening.turned) return;
  if (tightening.target.kind != record::PassKind::Angle) {
    throw OptionError("--turned", fmt::format("--turned belongs to an angle pass; pass {} of {} is "
                                              "{}",
                                              tightening.pass, tightening.joint,
                                              record::word_of(tightening.target.kind)));
  }
  if (!record::is_work(tightening)) {
    throw OptionError("--turned", "a pass that was left out or only checked turned nothing");
  }
}

// What is seen of a thread is seen when the fastener is slack.
void check_seen(const record::Tightening& tightening) {
  if (tightening.seen.empty() || tightening.target.kind == record::PassKind::Loosen) return;
  throw OptionError("--seen", fmt::format("--seen belongs to a pass that slackens; pass {} of {} "
                                          "is {}",
                                          tightening.pass, tightening.joint,
                                          record::word_of(tightening.target.kind)));
}

// What is said of the work; what is not, as the line before had it. A setting stays with its wrench
// and a turn with its pass, and what was turned or set was not left out.
TighteningWork completed(TighteningWork work, const record::Tightening* before) {
  KeptWords kept(work.correction);
  if (before != nullptr) {
    const bool is_said = !work.wrench.empty() || work.setting || work.turned;
    if (kept.keeps("skip", !work.skipped_why.empty()) && !is_said) {
      work.skipped_why = before->skipped_why;
    }
    if (kept.keeps("check", work.second_check)) work.second_check = before->second_check;
    const bool is_done = work.skipped_why.empty();
    if (kept.keeps("wrench", !work.wrench.empty()) && is_done) work.wrench = before->wrench;
    const bool is_same_wrench = record::same_code(work.wrench, before->wrench);
    if (kept.keeps("set", work.setting.has_value()) && is_done && is_same_wrench) {
      if (before->setting) work.setting = record::TypedSetting{*before->setting};
    }
    const bool is_same_pass = !work.pass || *work.pass == before->pass;
    if (!work.pass) work.pass = before->pass;
    if (kept.keeps("turned", work.turned.has_value()) && is_done && is_same_pass) {
      work.turned = before->turned;
    }
    if (kept.keeps("seen", !work.seen.empty()) && is_done && is_same_pass) {
      work.seen = before->seen;
    }
    if (kept.keeps("extension", work.adapter.has_value()) && record::is_used(before->adapter)) {
      work.adapter = before->adapter;
    }
  }
  if (before != nullptr) kept.check();
  return work;
}

}  // namespace

TighteningWork work_from(const TighteningWords& words, record::Address address) {
  TighteningWork work;
  work.joint = std::move(address.joint);
  work.positions = std::move(address.positions);
  work.in_order = address.in_order;
  if (!words.pass.empty()) {
    work.pass = of_option("--pass", [&] { return quantity::read_count(words.pass, kMostPasses); });
  }
  work.wrench = words.wrench;
  if (!words.set.empty()) {
    work.setting = of_option("--set", [&] { return record::read_setting(words.set); });
  }
  if (!words.turned.empty()) {
    work.turned = of_option("--turned", [&] { return quantity::read_turn(words.turned); });
  }
  if (!words.skip.empty()) {
    work.skipped_why =
        of_option("--skip", [&] { return record::read_text(words.skip, "--skip", 200); });
  }
  if (!words.seen.empty()) {
    work.seen = of_option("--seen", [&] { return record::read_text(words.seen, "--seen", 1000); });
  }
  work.second_check = words.check;
  if (work.second_check && !work.skipped_why.empty()) {
    throw OptionError("--check", "a pass that was left out cannot be checked");
  }
  work.adapter = of_option("--extension", [&] { return adapter_from(words.adapter); });
  work.correction = words.correction;
  return work;
}

record::Tightening tightening_from(const TighteningWork& work, int pass,
                                   const record::PassTarget& target,
                                   const plan::WrenchSetting* planned,
                                   const WrenchNamed& wrench_named) {
  record::Tightening tightening;
  tightening.joint = work.joint;
  tightening.positions = work.positions;
  tightening.in_order = work.in_order;
  tightening.pass = pass;
  tightening.target = target;
  tightening.turned = work.turned;
  tightening.skipped_why = work.skipped_why;
  tightening.second_check = work.second_check;
  tightening.seen = work.seen;
  check_turned(tightening);
  check_seen(tightening);
  set_wrench(tightening, work, planned, wrench_named);
  if (work.adapter) tightening.adapter = *work.adapter;
  return tightening;
}

std::string final_value_question(const Step& step) {
  const auto& joint = *step.joint->state->joint;
  return fmt::format("{}: final value when {}. Is it so now?", joint.code, joint.final_when);
}

void check_settable(const record::Wrench& wrench, double setting) {
  if (record::is_on_scale(wrench, setting)) return;
  throw failure::InputError(record::not_on_scale(wrench, setting));
}

void check_second_person(const record::Job& job, const progress::Progress& progress,
                         const std::string& joint, const std::vector<int>& positions,
                         const std::string& who, record::Moment done_at) {
  for (const int position : positions) {
    const auto address = record::write_address(joint, position);
    if (!progress.has_final_value(joint, position)) {
      throw failure::Refusal(fmt::format(
          "{} has not reached its final value; a second check comes after it", address));
    }
    if (const auto why = progress::why_not_final(job, progress, joint, position); !why.empty()) {
      throw failure::Refusal(why + "; a second check comes after that");
    }
    if (const auto* reached = progress.finish_of(joint, position).reached;
        reached != nullptr && reached->done_at > done_at) {
      const auto why = fmt::format("{} reached its final value on {} (line {}), after this check",
                                   address, record::write_local(reached->done_at), reached->line);
      throw AtPage<failure::Refusal>(why + "; give the time of the check with --at",
                                     why + "; leave this one out and check it now");
    }
    if (progress::is_same_person(progress, joint, position, who)) {
      const auto why =
          fmt::format("{} tightened {}; the check has to be made by another person", who, address);
      throw AtPage<failure::Refusal>(why + " (name them with --by)",
                                     why + ", on a phone of their own");
    }
  }
}

namespace {

// What stands in the way of these positions before anything is done at them: holds that are open,
// and that their joint never came out.
std::vector<std::string> remarks_on_begin(const progress::Reassembly& now,
                                          const TighteningWork& work, const record::Joint& joint,
                                          record::Moment done_at) {
  const auto* state = finding::joint_in(now.survey, joint.code);
  const bool is_begun = std::ranges::any_of(work.positions, [&](int position) {
    return std::ranges::any_of(now.progress.steps_of(joint.code, position),
                               [](const Step* step) { return step->entry != nullptr; });
  });
  if (is_begun || state == nullptr) return {};
  std::vector<std::string> remarks;
  const auto audit =
      audit::run_for_joint({now.job, now.survey, done_at, &now.progress}, joint.code);
  for (const auto& deviation : audit.deviations) {
    const bool is_here = std::ranges::any_of(
        work.positions, [&](int position) { return deviation.is_about(position); });
    if (!deviation.holds_up() || !is_here) continue;
    remarks.push_back(fmt::format("an open hold: {} ({}); settle it before it goes back",
                                  deviation.id, deviation.says));
  }
  const bool none_out = std::ranges::none_of(
      state->positions, [](const auto& position) { return position.removal != nullptr; });
  if (none_out) {
    remarks.push_back(fmt::format("none of {} is recorded as out: boltwitness bench {}",
                                  record::write_address(joint.code, work.positions), joint.code));
  }
  return remarks;
}

}  // namespace

record::PassTarget target_in_plan(const progress::Progress& progress, const std::string& joint,
                                  const std::vector<int>& positions, int pass) {
  return plan::target_of(steps_in_pass(progress, joint, positions, pass).front()->planned().pass);
}

Done record_work(logbook::Logbook& logbook, const logbook::Writer& stated,
                 const TighteningWork& said) {
  Amendment amendment(logbook, stated, said.correction);
  const auto& writer = amendment.writer();
  const auto work = completed(said, amendment.before<record::Tightening>());
  const auto day = record::local_day(writer.done_at);
  amendment.strike_replaced({"tightening"});
  const auto joint = joint_at_or_refuse(logbook, work.joint, work.positions);
  const progress::Reassembly now(logbook.job(), day, work.adapter.value_or(plan::ThroughAdapter{}));
  if (const auto alone = progress::why_left_alone(now, joint.code, work.positions);
      !alone.empty()) {
    throw failure::Refusal(alone);
  }
  Done done;
  done.remarks = check_hold_points(now.job, joint.code, writer.done_at, writer.now);
  if (work.second_check) {
    check_second_person(now.job, now.progress, joint.code, work.positions, writer.by,
                        writer.done_at);
  }

  const auto* replaced = amendment.before<record::Tightening>();
  for (const auto& part : recorded_apart(now.progress, work)) {
    const auto asked = asked_for(now.progress, part, replaced);
    auto tightening = tightening_from(
        part, asked.pass, asked.target, asked.planned(),
        [&](const std::string& name) { return wrench_or_refuse(logbook, name).content; });
    tightening.joint = joint.code;
    if (record::is_work(tightening) && asked.step != nullptr) {
      if (!part.is_time_confirmed && asked.step->joint->stage == plan::Stage::Final) {
        done.remarks.push_back(
            fmt::format("{}: its final value is set when {}; recorded as it happened", joint.code,
                        joint.final_when));
      }
    }
    if (record::is_work(tightening) && replaced == nullptr) {
      for (const auto& remark : remarks_on_begin(now, part, joint, writer.done_at)) {
        done.remarks.push_back(remark + "; recorded as it happened");
      }
    }
    if (asked.step != nullptr) {
      for (const auto& remark : progress::remarks_on(tightening, now, writer.done_at)) {
        done.remarks.push_back(remark + "; recorded as it happened");
      }
    }
    done.lines.push_back({amendment.append(tightening), words::line_text(tightening)});
  }
  amendment.commit();
  amendment.tell_replaced(done);
  return done;
}

}  // namespace act
