#include "paper/sequence_joint.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/done_by.h"
#include "paper/joint_facts.h"
#include "paper/pass_row.h"
#include "paper/tick_box.h"
#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/pass_rule.h"
#include "words/pass_text.h"

namespace paper {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;
using progress::Step;
using Stands = Step::Stands;

void write_conditions(Markup& page, const std::vector<words::Condition>& conditions) {
  if (conditions.empty()) return;
  page.element("h3", "Before it");
  write_todo(page, conditions);
}

// What the passes follow, and what their rule asks for around them; once where all follow the same.
std::string groups_text(const PlannedJoint& joint) {
  const auto& groups = joint.groups;
  const bool all_the_same = std::ranges::all_of(groups, [&](const plan::PassGroup& group) {
    return group.passes.origin == groups.front().passes.origin;
  });
  std::string text;
  for (const auto& group : groups) {
    const auto& passes = group.passes;
    text +=
        fmt::format("{}Passes{}: {}.", text.empty() ? "" : " ",
                    all_the_same ? "" : words::at_positions(joint, group.positions), passes.origin);
    if (!passes.before.empty()) text += fmt::format(" Before the first: {}.", passes.before);
    if (!passes.recheck.empty()) text += fmt::format(" {}.", passes.recheck);
    if (all_the_same) break;
  }
  return text;
}

std::string title_of(const PlannedJoint& joint, const PlannedPass& planned) {
  return fmt::format("Pass {} of {}{}: {}{}{}", planned.number, planned.of,
                     words::at_positions(joint, planned.order),
                     words::asked_text(planned, joint.state->unit),
                     planned.provisional ? ", provisional, from finding" : "",
                     planned.pass.says.empty() ? "" : ", " + planned.pass.says);
}

// What the hand needs for a pass, large.
void set_large(PassRow& row, const PlannedPass& planned) {
  if (planned.setting) {
    const auto& setting = *planned.setting;
    row.large = quantity::write_rounded(setting.setting);
    row.unit = quantity::name_of(setting.wrench->scale.unit);
    row.below =
        setting.wrench->name + (setting.calibration_known ? "" : ", calibration not on record");
    return;
  }
  switch (planned.pass.kind) {
    case record::PassKind::Angle:
      row.large = quantity::write_exact(*planned.pass.angle);
      row.below = "further";
      return;
    case record::PassKind::Loosen:
      row.large = "loosen";
      row.below = planned.pass.angle ? "by " + quantity::write_exact(*planned.pass.angle) : "fully";
      return;
    case record::PassKind::Snug:
      row.large = "snug";
      return;
    case record::PassKind::Renew:
      row.large = "new";
      row.below = "fit a new fastener";
      return;
    case record::PassKind::Torque:
    case record::PassKind::Check:
      break;
  }
  row.large = planned.pass.aim ? "no wrench" : "no torque";
  row.below = planned.pass.aim ? "none here can do this" : "none is known";
}

// What was done with one wrench at one setting.
struct DoneWith {
  const record::Tightening* how = nullptr;
  std::vector<DoneAt> at;
};

std::string used_text(const record::Tightening& how) {
  std::string text;
  if (!how.wrench.empty()) text += ", " + how.wrench;
  if (how.setting) {
    text +=
        fmt::format(" at {} {}", quantity::write_exact(*how.setting), quantity::name_of(how.unit));
  }
  return text;
}

std::vector<DoneWith> done_with(std::span<const Step> steps) {
  std::vector<DoneWith> all;
  for (const auto& step : steps) {
    if (step.stands != Stands::Done) continue;
    const auto& how = step.entry->content;
    auto same = std::ranges::find_if(
        all, [&](const DoneWith& each) { return used_text(*each.how) == used_text(how); });
    if (same == all.end()) same = all.insert(all.end(), DoneWith{&how, {}});
    same->at.push_back({step.position, &step.entry->stamp});
  }
  return all;
}

// A pass that is done shows what it was done with, not what would be taken today.
void show_what_was_used(PassRow& row, const std::vector<DoneWith>& all) {
  const auto& how = *all.front().how;
  if (all.size() == 1 && how.setting) {
    row.large = quantity::write_exact(*how.setting);
    row.unit = quantity::name_of(how.unit);
    row.below = how.wrench;
  } else if (how.setting || all.size() > 1) {
    row.large = "done";
    row.unit.clear();
    row.below = "with several settings";
  } else {
    row.below = how.wrench;
  }
}

void write_pass(Markup& page, const PlannedJoint& joint, const PlannedPass& planned,
                std::span<const Step> steps) {
  PassRow row;
  row.joint = joint.state->joint->code;
  row.title = title_of(joint, planned);
  row.positions = planned.order;
  set_large(row, planned);
  const auto all = done_with(steps);
  for (const auto& each : all) {
    for (const auto& at : each.at) row.ticked.insert(at.position);
    for (const auto& line : done_by(each.at)) {
      row.says.push_back("Done: " + line + used_text(*each.how));
    }
  }
  if (row.is_done()) show_what_was_used(row, all);
  for (const auto& step : steps) {
    if (step.stands != Stands::LeftOut) continue;
    row.says.push_back(fmt::format("Left out: {} by {}: {}", step.position, step.entry->stamp.by,
                                   step.entry->content.skipped_why));
  }
  if (!planned.otherwise.empty() && !row.is_done()) {
    row.says.push_back(planned.otherwise);
  }
  write_pass_row(page, row);
}

// The part of Finish that `what` names, wherever it has come to.
std::vector<DoneAt> finished(const PlannedJoint& joint, const progress::Progress& progress,
                             const record::Stamp* (*stamp_of)(const progress::Finish&)) {
  std::vector<DoneAt> done;
  for (const int position : joint.positions.positions) {
    const auto* stamp = stamp_of(progress.finish_of(joint.state->joint->code, position));
    if (stamp != nullptr) done.push_back({position, stamp});
  }
  return done;
}

// What follows the passes at each position.
void write_finish(Markup& page, PassRow row, const std::vector<DoneAt>& done) {
  for (const auto& each : done) row.ticked.insert(each.position);
  for (const auto& line : done_by(done)) row.says.push_back("Done: " + line);
  row.is_finish = true;
  write_pass_row(page, row);
}

// Looks again that the joint's own intervals and the dwells of its pass rules ask for.
void write_rechecks(Markup& page, const PlannedJoint& joint) {
  for (const auto& group : joint.groups) {
    if (group.passes.rule.empty()) continue;
    if (const auto& dwell = record::pass_rule_named(group.passes.rule).dwell) {
      write_sign_line(page,
                      fmt::format("Looked at again after {} by", record::write_exact(*dwell)));
    }
  }
  for (const auto& interval : joint.state->joint->rechecks) {
    write_sign_line(page, fmt::format("Re-check after {} by", record::in_words(interval)));
  }
}

void write_closing(Markup& page, const PlannedJoint& joint, const progress::Progress& progress) {
  const auto& what = *joint.state->joint;
  const auto& positions = joint.positions.positions;
  if (joint.is_left_open()) {
    page.element("p", {{"class", "caution"}}, "Left open; its final value when " + what.final_when);
    return;
  }
  if (what.critical) {
    write_finish(page,
                 {.joint = what.code,
                  .title = "Critical: checked by a second person",
                  .large = "second person",
                  .positions = positions},
                 finished(joint, progress, [](const progress::Finish& finish) {
                   return finish.second_check == nullptr ? nullptr : &finish.second_check->stamp;
                 }));
  }
  write_finish(page,
               {.joint = what.code,
                .title = "Final stripe on each fastener",
                .large = "stripe",
                .positions = positions},
               finished(joint, progress, [](const progress::Finish& finish) {
                 return finish.stripe == nullptr ? nullptr : &finish.stripe->stamp;
               }));
  write_rechecks(page, joint);
}

// What closes the joint stays on one page, and a last pass of one row with it, so that no stripe
// and no look to be signed goes to a page of its own; more would leave the page before it blank.
void write_passes(Markup& page, const SequenceJoint& joint, const SequenceContent& content) {
  auto steps = joint.steps;
  const auto& passes = joint.planned.passes;
  constexpr std::size_t kOneRow = 9;    // cells
  constexpr std::size_t kFewRows = 40;  // cells that are kept together where they are low
  const bool ends_together = !passes.empty() && passes.back().order.size() <= kOneRow;
  const auto open_end = [&] {
    const bool is_short = joint.planned.positions.positions.size() <= kFewRows;
    page.open("div", {{"class", is_short ? "end together" : "end"}});
  };
  for (const auto& planned : passes) {
    if (ends_together && &planned == &passes.back()) open_end();
    write_pass(page, joint.planned, planned, steps.first(planned.order.size()));
    steps = steps.subspan(planned.order.size());
  }
  if (!ends_together) open_end();
  write_closing(page, joint.planned, content.progress);
  page.close();
}

// A joint with few cells to tick is not parted between pages; one that is done may be.
bool is_small(const SequenceJoint& joint) {
  constexpr std::size_t kFewCells = 12;
  std::size_t cells = 0;
  for (const auto& planned : joint.planned.passes) cells += planned.order.size();
  return cells <= kFewCells && !std::ranges::all_of(joint.steps, [](const Step& step) {
           return step.stands == Stands::Done;
         });
}

}  // namespace

void write_sequence_joint(Markup& page, const SequenceJoint& joint,
                          const SequenceContent& content) {
  const auto& planned = joint.planned;
  const auto& what = *planned.state->joint;
  page.open("section", {{"class", is_small(joint) ? "joint whole" : "joint"}});
  JointTop top;
  top.turn = fmt::format("{} of {}", joint.turn, content.plan.joints.size());
  top.map.order = planned.positions.positions;
  top.why = fmt::format("Here in the order: {}. Positions: {}. {}", planned.why,
                        planned.positions.why, groups_text(planned));
  write_joint_top(page, *planned.state, std::move(top));
  if (planned.stage == plan::Stage::Final) {
    page.element("p", {{"class", "caution"}}, "Not before this: " + what.final_when);
  }
  write_conditions(page, joint.conditions);
  write_passes(page, joint, content);
  page.close();
}

}  // namespace paper
