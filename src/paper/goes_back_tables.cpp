#include "paper/goes_back_tables.h"

#include <fmt/ranges.h>

#include "paper/grid_table.h"
#include "progress/fluid_balance.h"
#include "progress/hold_point_state.h"
#include "progress/item_count.h"
#include "words/fluid_in_words.h"
#include "words/hold_point_in_words.h"
#include "words/joint_heading.h"
#include "words/renewal_orders.h"

namespace paper {
namespace {

void add_orders(GridTable& table, const std::vector<words::RenewalOrder>& orders,
                std::string_view state) {
  for (const auto& order : orders) {
    table.row({std::to_string(order.positions.size()), words::fastener_text(*order.joint),
               fmt::format("{}", fmt::join(words::what_for(order), "; ")), state});
  }
}

}  // namespace

void write_hold_point_table(Markup& page, const record::Job& job, record::Moment now) {
  const auto states = progress::hold_points(job, now);
  if (states.empty()) return;
  page.element("h2", "Hold points");
  GridTable table(page, "Hold points",
                  {"hold point", "what is proved", "wait", "before", "stands"});
  for (const auto& state : states) {
    const auto& point = *state.point;
    table.row({point.code, point.what, point.wait ? record::write_exact(*point.wait) : "none",
               words::what_is_behind(point), words::how_it_stands(state)});
  }
  table.end();
}

void write_fluid_table(Markup& page, const record::Job& job) {
  const auto balances = progress::fluid_balances(job);
  if (balances.empty()) return;
  page.element("h2", "Fluids");
  GridTable table(page, "Fluids", {"fluid", "drained", "filled", "balance"});
  for (const auto& balance : balances) {
    table.row({balance.fluid, words::amounts_in_words(balance.drained, balance.sum_drained),
               words::amounts_in_words(balance.filled, balance.sum_filled),
               words::balance_in_words(balance)});
  }
  table.end();
}

void write_item_table(Markup& page, const record::Job& job) {
  const auto counts = progress::item_counts(job);
  if (counts.empty()) return;
  page.element("h2", "Counted items");
  GridTable table(page, "Counted items", {"item", "what", "off", "back", "missing", "before"});
  for (const auto& count : counts) {
    table.row({count.item->code, count.item->what, std::to_string(count.off),
               std::to_string(count.back), std::to_string(count.missing()),
               count.item->before.empty() ? "-" : count.item->before});
  }
  table.end();
}

void write_renewal_table(Markup& page, const record::Job& job, const finding::Survey& survey) {
  const auto list = plan::renewal_list(job, survey);
  if (list.empty()) return;
  const auto orders = words::renewal_orders(list);
  page.element("h2", "New fasteners");
  GridTable table(page, "New fasteners", {"count", "fastener", "where and why", "state"});
  add_orders(table, orders.to_buy, "to buy");
  add_orders(table, orders.arrived, "arrived");
  add_orders(table, orders.look_first, "look first: renew where the thread is pulled");
  table.end();
}

}  // namespace paper
