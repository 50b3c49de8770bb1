#include "paper/sequence_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "paper/grid_table.h"
#include "paper/joint_facts.h"
#include "paper/joint_map.h"
#include "record/address.h"
#include "report/audit_report.h"
#include "report/pass_text.h"
#include "report/sequence_report.h"

namespace paper {
namespace {

using plan::PlannedJoint;
using plan::PlannedPass;

constexpr MapRoom kMapRoom{176.0, 84.0};
constexpr std::size_t kMostOnOnePage = 80;  // boxes of a pass that are kept together

void write_list(Markup& page, std::string_view title, const std::vector<std::string>& items) {
  if (items.empty()) return;
  page.element("h2", title).open("ul");
  for (const auto& item : items) page.element("li", item);
  page.close();
}

void write_first_page(Markup& page, const plan::ReassemblyPlan& plan, const audit::Audit& audit) {
  page.open("section", {{"class", "sheet"}});
  page.element("p", {{"class", "caution"}}, report::sequence_cautions());
  std::vector<std::string> holds;
  for (const auto& deviation : audit.deviations) {
    if (deviation.level != audit::Level::Hold) continue;
    holds.push_back(
        fmt::format("{}, {}: {}", report::place_text(deviation), deviation.rule, deviation.says));
  }
  write_list(page, "Holds that are open", holds);
  write_list(page, "To see to first", plan.warnings);
  if (!plan.adapter.words.empty()) {
    page.element("p", fmt::format("Every setting is through {}: the fastener gets {:.4g} times the "
                                  "setting. Keep the angle, pull at the middle of the grip.",
                                  plan.adapter.words, plan.adapter.torque_ratio));
  }
  page.element("h2", "Order of the joints");
  begin_table(page, "Order of the joints", {"turn", "joint", "holds", "why here", "closed"});
  int turn = 0;
  for (const auto& joint : plan.joints) {
    const auto number = std::to_string(++turn);
    page.open("tr");
    page.element("th", {{"scope", "row"}}, number);
    page.element("td", joint.state->joint->code).element("td", joint.state->joint->holds);
    page.element("td", joint.why);
    page.open("td").element("span", {{"class", "box"}}, "").close();
    page.close();
  }
  end_table(page);
  page.close();
}

void write_ticks(Markup& page, const std::vector<int>& positions) {
  const bool wide_numbers = std::ranges::any_of(positions, [](int each) { return each >= 100; });
  page.open("ol", {{"class", wide_numbers ? "ticks many" : "ticks"}});
  for (const int position : positions) {
    page.open("li").element("span", {{"class", "box"}}, "");
    page.text(std::to_string(position)).close();
  }
  page.close();
}

// " for 2,7,10,15" where it is not for all positions; else empty.
std::string which_positions(const PlannedJoint& joint, std::vector<int> positions) {
  if (positions.size() == joint.state->positions.size()) return {};
  std::ranges::sort(positions);
  return fmt::format(" for {}", record::write_positions(positions));
}

void write_pass(Markup& page, const PlannedJoint& joint, const PlannedPass& planned,
                const record::LogbookStart& start) {
  const auto setting = report::setting_text(planned);
  const auto target = report::target_text(planned, start);
  const bool is_long = planned.order.size() > kMostOnOnePage;
  page.open("div", {{"class", is_long ? "pass long" : "pass"}});
  page.open("h3").text(fmt::format("Pass {} of {}{}: {}{}{}", planned.number, planned.of,
                                   which_positions(joint, planned.order), target,
                                   planned.provisional ? ", provisional, from finding" : "",
                                   planned.pass.says.empty() ? "" : ", " + planned.pass.says));
  if (!setting.empty()) page.text(" ").element("span", {{"class", "set"}}, setting);
  page.close();
  write_ticks(page, planned.order);
  if (!planned.otherwise.empty()) page.element("p", planned.otherwise);
  page.close();
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

void sign(Markup& page, std::string_view what) {
  page.open("p", {{"class", "write"}}).text(what).text(" ");
  page.element("span", {{"class", "blank"}}, "").text(" on ");
  page.element("span", {{"class", "blank"}}, "").close();
}

void write_closing(Markup& page, const PlannedJoint& joint) {
  const auto& what = *joint.state->joint;
  if (joint.is_left_open()) {
    page.element("p", {{"class", "caution"}}, "Left open; its final value when " + what.final_when);
    sign(page, "Made snug by");
    return;
  }
  page.open("div", {{"class", "pass"}}).element("h3", "Final stripe on each fastener");
  write_ticks(page, joint.positions.positions);
  page.close();
  sign(page, "Done by");
  if (what.critical) sign(page, "Critical, final value checked by a second person:");
  for (const auto& interval : what.rechecks) {
    sign(page, fmt::format("Re-check after {} by", record::write_exact(interval)));
  }
}

void write_joint(Markup& page, std::size_t turn, const PlannedJoint& joint,
                 const record::LogbookStart& start) {
  page.open("section", {{"class", "sheet"}});
  write_joint_facts(page, *joint.state, start);
  if (joint.stage == plan::Stage::Final) {
    page.element("p", {{"class", "caution"}},
                 fmt::format("Not before this: {}", joint.state->joint->final_when));
  }
  page.element("p", fmt::format("Turn {} of the joints: {}. Order of the positions: {}.", turn,
                                joint.why, joint.positions.why));
  write_groups(page, joint);
  MapContent map;
  map.order = joint.positions.positions;
  map.room = room_for(*joint.state->joint, kMapRoom);
  draw_map(page, *joint.state->joint, map);
  for (const auto& planned : joint.passes) write_pass(page, joint, planned, start);
  write_closing(page, joint);
  page.close();
}

}  // namespace

std::string sequence_page(const plan::ReassemblyPlan& plan, const record::LogbookStart& start,
                          const audit::Audit& audit, const Imprint& imprint) {
  Document document("reassembly", imprint);
  write_first_page(document.body(), plan, audit);
  std::size_t turn = 0;
  for (const auto& joint : plan.joints) write_joint(document.body(), ++turn, joint, start);
  return document.take();
}

}  // namespace paper
