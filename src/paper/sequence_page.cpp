#include "paper/sequence_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "paper/grid_table.h"
#include "paper/sequence_joint.h"
#include "paper/tick_box.h"
#include "words/adapter_in_words.h"
#include "words/before_joint.h"
#include "words/deviation_in_words.h"
#include "words/joint_heading.h"
#include "words/reassembly_cautions.h"
#include "words/renewal_orders.h"

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
        fmt::format("{}, {}: {}", words::place_text(deviation), deviation.rule, deviation.says));
  }
  write_list(page, "Holds that are open", holds);
}

void write_decided(Markup& page, const audit::Audit& audit) {
  std::vector<std::string> open;
  for (const auto& work : audit.to_do) {
    open.push_back(
        fmt::format("{}: {}", work.decision->content.deviation, progress::in_words(work)));
  }
  write_list(page, "Decided, not done", open);
}

void write_conditions(Markup& page, std::string_view title,
                      const std::vector<words::Condition>& conditions) {
  if (conditions.empty()) return;
  page.element("h2", title);
  write_todo(page, conditions);
}

void write_orders(Markup& page, bool here, const std::vector<words::RenewalOrder>& orders) {
  for (const auto& order : orders) {
    write_todo(
        page, here,
        fmt::format("{} x {}: {}", order.positions.size(), words::fastener_text(*order.joint),
                    fmt::join(words::what_for(order), "; ")));
  }
}

void write_new_fasteners(Markup& page, const std::vector<plan::Renewing>& list) {
  const auto orders = words::renewal_orders(list);
  if (orders.to_buy.empty() && orders.arrived.empty()) return;
  page.element("h2", "New fasteners, ticked where they have come");
  begin_todo(page);
  write_orders(page, false, orders.to_buy);
  write_orders(page, true, orders.arrived);
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
  GridTable table(page, "Order of the joints", {"turn", "joint", "holds", "why here", "done"},
                  "order");
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& joint = content.plan.joints[i];
    const auto done = std::ranges::count(steps[i], Step::Stands::Done, &Step::stands);
    const bool is_whole = done == std::ssize(steps[i]);
    table.begin_row(std::to_string(i + 1));
    table.cell(joint.state->joint->code);
    table.cell(joint.state->joint->holds);
    table.cell(joint.why);
    table.begin_cell();
    write_tick_box(page, is_whole, BoxSize::Small);
    if (done > 0 && !is_whole) page.text(fmt::format("{} of {} steps", done, steps[i].size()));
    table.end_cell();
    table.end_row();
  }
  table.end();
}

void write_first_page(Markup& page, const SequenceContent& content,
                      const words::BeforeJoints& before,
                      const std::vector<std::span<const Step>>& steps) {
  const auto& plan = content.plan;
  page.open("section", {{"class", "first"}});
  page.element("p", {{"class", "caution"}}, words::sequence_cautions());
  write_holds(page, content.audit);
  write_decided(page, content.audit);
  write_conditions(page, "Hold points", before.hold_points());
  write_list(page, "To see to first", plan.warnings);
  if (record::is_used(plan.adapter)) {
    page.element("p",
                 fmt::format("Every setting is through {}: the fastener gets {:.4g} times the "
                             "setting. Keep the angle, pull at the middle of the grip.",
                             words::adapter_in_words(plan.adapter), plan.adapter.torque_ratio));
  }
  write_new_fasteners(page, before.renewals());
  write_conditions(page, "What goes back beside the bolts", before.goes_back());
  write_order(page, content, steps);
  page.close();
}

}  // namespace

std::string sequence_page(const SequenceContent& content, const Imprint& imprint) {
  Document document("reassembly", imprint);
  const auto steps = steps_by_joint(content);
  const words::BeforeJoints before(content.job, content.survey, content.audit, imprint.printed);
  write_first_page(document.body(), content, before, steps);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& planned = content.plan.joints[i];
    write_sequence_joint(document.body(), {i + 1, planned, steps[i], before.before(*planned.state)},
                         content);
  }
  return document.take();
}

}  // namespace paper
