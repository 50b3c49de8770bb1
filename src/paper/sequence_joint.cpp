#include "paper/sequence_joint.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/done_by.h"
#include "paper/joint_facts.h"
#include "paper/joint_map.h"
#include "paper/tick_box.h"
#include "plan/pass_rule.h"
#include "record/address.h"
#include "report/hold_point_report.h"
#include "report/item_report.h"
#include "report/pass_text.h"

namespace paper {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;
using progress::Step;
using Stands = Step::Stands;

constexpr MapRoom kMapRoom{176.0, 84.0};
constexpr std::size_t kMostOnOnePage = 80;  // boxes of a pass that are kept together

// Something to see to before the joint, and whether it is so already.
struct Condition {
  bool met = false;
  std::string says;
};

void add_holds(const std::string& code, const audit::Audit& audit,
               std::vector<Condition>& conditions) {
  for (const auto& deviation : audit.deviations) {
    if (!deviation.holds_up() || !record::same_code(deviation.joint, code)) continue;
    conditions.push_back(
        {false, fmt::format("Open hold{}: {}: {}",
                            deviation.position ? fmt::format(" at {}", *deviation.position) : "",
                            deviation.rule, deviation.says)});
  }
}

void add_hold_points(const std::string& code, std::span<const progress::HoldPointState> states,
                     std::vector<Condition>& conditions) {
  for (const auto& state : states) {
    if (!progress::guards(*state.point, code)) continue;
    conditions.push_back({state.stands == progress::HoldPointState::Stands::Passed,
                          fmt::format("Hold point {}, {}: {}", state.point->code, state.point->what,
                                      report::how_it_stands(state))});
  }
}

void add_new_fasteners(const std::vector<const plan::Renewing*>& renewals,
                       std::vector<Condition>& conditions) {
  std::vector<int> here;
  std::vector<int> to_come;
  std::vector<int> look_first;
  for (const auto* renewing : renewals) {
    auto& list = renewing->has_arrived ? here : renewing->is_certain() ? to_come : look_first;
    list.push_back(renewing->position);
  }
  const auto add = [&](bool met, const std::vector<int>& positions, std::string_view says) {
    if (positions.empty()) return;
    conditions.push_back({met, fmt::format("{} at {}", says, record::write_positions(positions))});
  };
  add(true, here, "New fasteners are here:");
  add(false, to_come, "New fasteners have yet to come:");
  add(false, look_first, "Came out seized, look at the thread first:");
}

void add_items(const std::string& code, std::span<const progress::ItemCount> counts,
               std::vector<Condition>& conditions) {
  for (const auto& count : counts) {
    if (!record::same_code(count.item->before, code)) continue;
    conditions.push_back(
        {count.missing() == 0, fmt::format("Back before it is closed: {}, {}: {}", count.item->code,
                                           count.item->what, report::count_in_words(count))});
  }
}

void write_conditions(Markup& page, const SequenceJoint& joint, const audit::Audit& audit) {
  const auto& code = joint.planned.state->joint->code;
  std::vector<Condition> conditions;
  add_holds(code, audit, conditions);
  add_hold_points(code, joint.hold_points, conditions);
  add_new_fasteners(joint.renewals, conditions);
  add_items(code, joint.items, conditions);
  if (conditions.empty()) return;
  page.element("h3", "Before it");
  begin_todo(page);
  for (const auto& condition : conditions) write_todo(page, condition.met, condition.says);
  page.close();
}

// " for 2,7,10,15" where it is not for all positions; else empty.
std::string which_positions(const PlannedJoint& joint, std::vector<int> positions) {
  if (positions.size() == joint.state->positions.size()) return {};
  std::ranges::sort(positions);
  return fmt::format(" for {}", record::write_positions(positions));
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
                                  all_the_same ? "" : which_positions(joint, group.positions),
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

std::string title_of(const PlannedJoint& joint, const PlannedPass& planned,
                     const record::LogbookStart& start) {
  return fmt::format("Pass {} of {}{}: {}{}{}", planned.number, planned.of,
                     which_positions(joint, planned.order), report::target_text(planned, start),
                     planned.provisional ? ", provisional, from finding" : "",
                     planned.pass.says.empty() ? "" : ", " + planned.pass.says);
}

void write_pass(Markup& page, const PlannedJoint& joint, const PlannedPass& planned,
                std::span<const Step> steps, const record::LogbookStart& start) {
  std::vector<DoneAt> done;
  for (const auto& step : steps) {
    if (step.stands == Stands::Done) done.push_back({step.position, &step.entry->stamp});
  }
  const bool is_long = planned.order.size() > kMostOnOnePage;
  page.open("div", {{"class", is_long ? "pass long" : "pass"}});
  page.open("h3");
  if (done.size() == steps.size()) write_tick_box(page, true);
  page.text(title_of(joint, planned, start));
  if (const auto setting = report::setting_text(planned); !setting.empty()) {
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

void write_passes(Markup& page, const SequenceJoint& joint, const record::LogbookStart& start) {
  auto steps = joint.steps;
  for (const auto& planned : joint.planned.passes) {
    write_pass(page, joint.planned, planned, steps.first(planned.order.size()), start);
    steps = steps.subspan(planned.order.size());
  }
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

}  // namespace

void write_sequence_joint(Markup& page, const SequenceJoint& joint,
                          const SequenceContent& content) {
  const auto& planned = joint.planned;
  const auto& what = *planned.state->joint;
  page.open("section", {{"class", "sheet"}});
  write_joint_facts(page, *planned.state, content.job.start);
  if (planned.stage == plan::Stage::Final) {
    page.element("p", {{"class", "caution"}}, "Not before this: " + what.final_when);
  }
  page.element("p", fmt::format("Turn {} of the joints: {}. Order of the positions: {}.",
                                joint.turn, planned.why, planned.positions.why));
  write_groups(page, planned);
  write_conditions(page, joint, content.audit);
  MapContent map;
  map.order = planned.positions.positions;
  map.room = room_for(what, kMapRoom);
  draw_map(page, what, map);
  write_passes(page, joint, content.job.start);
  write_closing(page, planned, content.progress);
  page.close();
}

}  // namespace paper
