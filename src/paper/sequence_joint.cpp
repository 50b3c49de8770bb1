#include "paper/sequence_joint.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/done_by.h"
#include "paper/joint_facts.h"
#include "paper/joint_map.h"
#include "paper/tick_box.h"
#include "plan/pass_rule.h"
#include "record/address.h"
#include "words/pass_text.h"

namespace paper {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;
using progress::Step;
using Stands = Step::Stands;

constexpr MapRoom kSequenceMapRoom{176.0, 70.0};
constexpr std::size_t kMostOnOnePage = 80;  // boxes of a pass that are kept together

void write_conditions(Markup& page, const std::vector<words::Condition>& conditions) {
  if (conditions.empty()) return;
  page.element("h3", "Before it");
  write_todo(page, conditions);
}

// What the passes follow, and what their rule asks for around them; once where all follow the same.
void write_groups(Markup& page, const PlannedJoint& joint) {
  const auto& groups = joint.groups;
  const bool all_the_same = std::ranges::all_of(groups, [&](const plan::PassGroup& group) {
    return group.passes.origin == groups.front().passes.origin;
  });
  for (const auto& group : groups) {
    const auto& passes = group.passes;
    page.element("p", fmt::format("Passes{}: {}.",
                                  all_the_same ? "" : words::at_positions(joint, group.positions),
                                  passes.origin));
    if (!passes.before.empty()) page.element("p", "Before the first: " + passes.before);
    if (!passes.recheck.empty()) page.element("p", passes.recheck);
    if (all_the_same) break;
  }
}

// Boxes for all positions, and who ticked those that are ticked; where all are, only that.
void write_ticked(Markup& page, const std::vector<int>& positions,
                  const std::vector<DoneAt>& done) {
  std::set<int> ticked;
  for (const auto& each : done) ticked.insert(each.position);
  if (ticked.size() < positions.size()) write_tick_boxes(page, positions, ticked);
  for (const auto& line : done_by(done)) page.element("p", "Done: " + line);
}

std::string title_of(const PlannedJoint& joint, const PlannedPass& planned) {
  return fmt::format("Pass {} of {}{}: {}{}{}", planned.number, planned.of,
                     words::at_positions(joint, planned.order),
                     words::asked_text(planned, joint.state->unit),
                     planned.provisional ? ", provisional, from finding" : "",
                     planned.pass.says.empty() ? "" : ", " + planned.pass.says);
}

void write_pass(Markup& page, const PlannedJoint& joint, const PlannedPass& planned,
                std::span<const Step> steps) {
  std::vector<DoneAt> done;
  for (const auto& step : steps) {
    if (step.stands == Stands::Done) done.push_back({step.position, &step.entry->stamp});
  }
  const bool is_long = planned.order.size() > kMostOnOnePage;
  page.open("div", {{"class", is_long ? "pass long" : "pass"}});
  page.open("h3");
  if (done.size() == steps.size()) write_tick_box(page, true);
  page.text(title_of(joint, planned));
  if (const auto setting = words::setting_text(planned); !setting.empty()) {
    page.text(" ").element("span", {{"class", "set"}}, setting);
  }
  page.close();
  write_ticked(page, planned.order, done);
  for (const auto& step : steps) {
    if (step.stands != Stands::LeftOut) continue;
    page.element("p", fmt::format("Left out: {} by {}: {}", step.position, step.entry->stamp.by,
                                  step.entry->content.skipped_why));
  }
  if (!planned.otherwise.empty()) page.element("p", planned.otherwise);
  page.close();
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

void write_finish(Markup& page, std::string_view title, const std::vector<int>& positions,
                  const std::vector<DoneAt>& done) {
  page.open("div", {{"class", "pass"}}).open("h3");
  if (done.size() == positions.size()) write_tick_box(page, true);
  page.text(title).close();
  write_ticked(page, positions, done);
  if (done.size() < positions.size()) write_sign_line(page, "By");
  page.close();
}

// Looks again that the joint's own intervals and the dwells of its pass rules ask for.
void write_rechecks(Markup& page, const PlannedJoint& joint) {
  for (const auto& group : joint.groups) {
    if (group.passes.rule.empty()) continue;
    if (const auto& dwell = plan::pass_rule_named(group.passes.rule).dwell) {
      write_sign_line(page,
                      fmt::format("Looked at again after {} by", record::write_exact(*dwell)));
    }
  }
  for (const auto& interval : joint.state->joint->rechecks) {
    write_sign_line(page, fmt::format("Re-check after {} by", record::write_exact(interval)));
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
    write_finish(page, "Critical: checked by a second person", positions,
                 finished(joint, progress, [](const progress::Finish& finish) {
                   return finish.second_check == nullptr ? nullptr : &finish.second_check->stamp;
                 }));
  }
  write_finish(page, "Final stripe on each fastener", positions,
               finished(joint, progress, [](const progress::Finish& finish) {
                 return finish.stripe == nullptr ? nullptr : &finish.stripe->stamp;
               }));
  write_rechecks(page, joint);
}

// The last pass stays on one page with what closes the joint, so that no stripe and no look to be
// signed goes to a page of its own.
void write_passes(Markup& page, const SequenceJoint& joint, const SequenceContent& content) {
  auto steps = joint.steps;
  const auto& passes = joint.planned.passes;
  for (const auto& planned : passes) {
    if (&planned == &passes.back()) page.open("div", {{"class", "together"}});
    write_pass(page, joint.planned, planned, steps.first(planned.order.size()));
    steps = steps.subspan(planned.order.size());
  }
  write_closing(page, joint.planned, content.progress);
  if (!passes.empty()) page.close();
}

}  // namespace

void write_sequence_joint(Markup& page, const SequenceJoint& joint,
                          const SequenceContent& content) {
  const auto& planned = joint.planned;
  const auto& what = *planned.state->joint;
  page.open("section", {{"class", "sheet"}});
  write_joint_facts(page, *planned.state);
  if (planned.stage == plan::Stage::Final) {
    page.element("p", {{"class", "caution"}}, "Not before this: " + what.final_when);
  }
  page.element("p", fmt::format("Turn {} of the joints: {}. Order of the positions: {}.",
                                joint.turn, planned.why, planned.positions.why));
  write_groups(page, planned);
  write_conditions(page, joint.conditions);
  MapContent map;
  map.order = planned.positions.positions;
  map.room = room_for(what, kSequenceMapRoom);
  draw_map(page, what, map);
  write_passes(page, joint, content);
  page.close();
}

}  // namespace paper
