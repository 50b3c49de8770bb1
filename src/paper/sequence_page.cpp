#include "paper/sequence_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>

#include "paper/grid_table.h"
#include "paper/sequence_joint.h"
#include "paper/tick_box.h"
#include "plan/renewal_list.h"
#include "progress/fluid_balance.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"
#include "report/audit_report.h"
#include "report/fluid_report.h"
#include "report/hold_point_report.h"
#include "report/item_report.h"
#include "report/joint_heading.h"
#include "report/renewal_orders.h"
#include "report/sequence_report.h"

namespace paper {
namespace {

using progress::Step;

void write_list(Markup& page, std::string_view title, const std::vector<std::string>& items) {
  if (items.empty()) return;
  page.element("h2", title).open("ul");
  for (const auto& item : items) page.element("li", item);
  page.close();
}

void write_holds(Markup& page, const audit::Audit& audit) {
  std::vector<std::string> holds;
  for (const auto& deviation : audit.deviations) {
    if (!deviation.holds_up()) continue;
    holds.push_back(
        fmt::format("{}, {}: {}", report::place_text(deviation), deviation.rule, deviation.says));
  }
  write_list(page, "Holds that are open", holds);
}

void write_hold_points(Markup& page, const std::vector<progress::HoldPointState>& states) {
  if (states.empty()) return;
  page.element("h2", "Hold points");
  begin_todo(page);
  for (const auto& state : states) {
    write_todo(page, state.stands == progress::HoldPointState::Stands::Passed,
               fmt::format("{}, {}; before {}: {}", state.point->code, state.point->what,
                           report::what_is_behind(*state.point), report::how_it_stands(state)));
  }
  page.close();
}

void write_orders(Markup& page, bool here, const std::vector<report::RenewalOrder>& orders) {
  for (const auto& order : orders) {
    write_todo(
        page, here,
        fmt::format("{} x {}: {}", order.positions.size(), report::fastener_text(*order.joint),
                    fmt::join(report::what_for(order), "; ")));
  }
}

void write_new_fasteners(Markup& page, const std::vector<plan::Renewing>& list) {
  const auto orders = report::renewal_orders(list);
  if (orders.to_buy.empty() && orders.arrived.empty()) return;
  page.element("h2", "New fasteners, ticked where they have come");
  begin_todo(page);
  write_orders(page, false, orders.to_buy);
  write_orders(page, true, orders.arrived);
  page.close();
}

void write_what_goes_back(Markup& page, const record::Job& job,
                          const std::vector<progress::ItemCount>& items) {
  const auto fluids = progress::fluid_balances(job);
  if (fluids.empty() && items.empty()) return;
  page.element("h2", "What goes back beside the bolts");
  begin_todo(page);
  for (const auto& balance : fluids) {
    write_todo(page, balance.still_to_go_back <= quantity::Volume::millilitres(0),
               fmt::format("{}: {}", balance.fluid, report::balance_in_words(balance)));
  }
  for (const auto& count : items) {
    write_todo(page, count.missing() == 0,
               fmt::format("{}, {}{}: {}", count.item->code, count.item->what,
                           count.item->before.empty() ? "" : ", before " + count.item->before,
                           report::count_in_words(count)));
  }
  page.close();
}

// The steps of a plan, joint by joint as they stand in it.
std::vector<std::span<const Step>> steps_by_joint(const SequenceContent& content) {
  std::vector<std::span<const Step>> by_joint;
  const auto& steps = content.progress.steps();
  auto first = steps.begin();
  for (const auto& joint : content.plan.joints) {
    const auto end =
        std::find_if(first, steps.end(), [&](const Step& step) { return step.joint != &joint; });
    by_joint.emplace_back(first, end);
    first = end;
  }
  return by_joint;
}

void write_order(Markup& page, const SequenceContent& content,
                 const std::vector<std::span<const Step>>& steps) {
  page.element("h2", "Order of the joints");
  begin_table(page, "Order of the joints", {"turn", "joint", "holds", "why here", "done"}, "order");
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& joint = content.plan.joints[i];
    const auto done = std::ranges::count(steps[i], Step::Stands::Done, &Step::stands);
    const bool is_whole = done == std::ssize(steps[i]);
    page.open("tr");
    page.element("th", {{"scope", "row"}}, std::to_string(i + 1));
    page.element("td", joint.state->joint->code).element("td", joint.state->joint->holds);
    page.element("td", joint.why).open("td");
    write_tick_box(page, is_whole, BoxSize::Small);
    if (done > 0 && !is_whole) page.text(fmt::format("{} of {} steps", done, steps[i].size()));
    page.close().close();
  }
  end_table(page);
}

void write_first_page(Markup& page, const SequenceContent& content,
                      const std::vector<plan::Renewing>& renewals,
                      const std::vector<std::span<const Step>>& steps,
                      const std::vector<progress::HoldPointState>& hold_points,
                      const std::vector<progress::ItemCount>& items) {
  const auto& plan = content.plan;
  page.open("section", {{"class", "sheet"}});
  page.element("p", {{"class", "caution"}}, report::sequence_cautions());
  write_holds(page, content.audit);
  write_hold_points(page, hold_points);
  write_list(page, "To see to first", plan.warnings);
  if (!plan.adapter.words.empty()) {
    page.element("p", fmt::format("Every setting is through {}: the fastener gets {:.4g} times the "
                                  "setting. Keep the angle, pull at the middle of the grip.",
                                  plan.adapter.words, plan.adapter.torque_ratio));
  }
  write_new_fasteners(page, renewals);
  write_what_goes_back(page, content.job, items);
  write_order(page, content, steps);
  page.close();
}

}  // namespace

std::string sequence_page(const SequenceContent& content, const Imprint& imprint) {
  Document document("reassembly", imprint);
  const auto steps = steps_by_joint(content);
  const auto renewals = plan::renewal_list(content.job, content.survey);
  std::map<const finding::JointState*, std::vector<const plan::Renewing*>> renewals_of;
  for (const auto& renewing : renewals) renewals_of[renewing.joint].push_back(&renewing);
  const auto hold_points = progress::hold_points(content.job, imprint.printed);
  const auto items = progress::item_counts(content.job);
  write_first_page(document.body(), content, renewals, steps, hold_points, items);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& planned = content.plan.joints[i];
    write_sequence_joint(document.body(),
                         {i + 1, planned, steps[i], renewals_of[planned.state], hold_points, items},
                         content);
  }
  return document.take();
}

}  // namespace paper
