#include "report/renewal_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "record/address.h"
#include "report/joint_heading.h"
#include "report/json_text.h"

namespace report {
namespace {

using plan::Renewing;

// Positions that take the same fastener.
struct Order {
  const record::Joint* joint = nullptr;  // the first of those that take it
  std::vector<const Renewing*> positions;
};

// The three parts of the list.
struct Orders {
  std::vector<Order> to_buy;
  std::vector<Order> arrived;
  std::vector<Order> look_first;
};

// Whatever the words in which a length was entered.
bool same_fastener(const record::Joint& a, const record::Joint& b) {
  const bool same_length = a.length && b.length ? quantity::is_same(*a.length, *b.length)
                                                : a.length.has_value() == b.length.has_value();
  return a.size == b.size && same_length && a.grade == b.grade;
}

void add(std::vector<Order>& orders, const Renewing& renewing) {
  const auto& joint = *renewing.joint->joint;
  auto known = std::ranges::find_if(
      orders, [&](const Order& order) { return same_fastener(*order.joint, joint); });
  if (known == orders.end()) known = orders.insert(orders.end(), {&joint, {}});
  known->positions.push_back(&renewing);
}

Orders ordered(const std::vector<Renewing>& list) {
  Orders orders;
  for (const auto& renewing : list) {
    if (renewing.has_arrived) {
      add(orders.arrived, renewing);
    } else {
      add(renewing.is_certain() ? orders.to_buy : orders.look_first, renewing);
    }
  }
  return orders;
}

std::string reasons_text(const Renewing& renewing) {
  std::string text;
  for (const auto reason : renewing.reasons) {
    text += (text.empty() ? "" : ", ") + std::string(plan::in_words(reason));
  }
  return text;
}

// "J10/1-8: one-time", one line for each joint and reason.
std::string positions_text(const Order& order, const Page& page) {
  std::string text;
  for (auto first = order.positions.begin(); first != order.positions.end();) {
    const auto reasons = reasons_text(**first);
    std::vector<int> positions;
    auto next = first;
    while (next != order.positions.end() && (*next)->joint == (*first)->joint &&
           reasons_text(**next) == reasons) {
      positions.push_back((*next)->position);
      ++next;
    }
    text += wrapped(fmt::format("{}/{}: {}", (*first)->joint->joint->code,
                                record::write_positions(positions), reasons),
                    page.width, "    ", "      ");
    first = next;
  }
  return text;
}

std::string part_text(std::string_view heading, const std::vector<Order>& orders,
                      const Page& page) {
  if (orders.empty()) return {};
  std::string text = strong(heading, page) + '\n';
  for (const auto& order : orders) {
    text += fmt::format("  {} x {}\n", order.positions.size(), fastener_text(*order.joint));
    text += positions_text(order, page);
  }
  return text;
}

nlohmann::ordered_json part_json(const std::vector<Order>& orders) {
  auto rows = nlohmann::ordered_json::array();
  for (const auto& order : orders) {
    const auto& joint = *order.joint;
    nlohmann::ordered_json row = {{"size", joint.size},
                                  {"length_mm", nullptr},
                                  {"grade", joint.grade},
                                  {"count", order.positions.size()},
                                  {"for", nlohmann::ordered_json::array()}};
    if (joint.length) row["length_mm"] = joint.length->in_millimetres();
    for (const auto* renewing : order.positions) {
      auto why = nlohmann::ordered_json::array();
      for (const auto reason : renewing->reasons) why.push_back(plan::in_words(reason));
      row["for"].push_back({{"joint", renewing->joint->joint->code},
                            {"position", renewing->position},
                            {"why", std::move(why)}});
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace

std::string renewals_text(const std::vector<Renewing>& list, const Page& page) {
  if (list.empty()) return "nothing came out that has to be renewed\n";
  const auto orders = ordered(list);
  std::string text = part_text("To buy", orders.to_buy, page);
  text += part_text("Arrived", orders.arrived, page);
  text += part_text("Look first: renew where the thread is pulled", orders.look_first, page);
  return text;
}

std::string renewals_json(const std::vector<Renewing>& list) {
  const auto orders = ordered(list);
  return json_text({{"to_buy", part_json(orders.to_buy)},
                    {"arrived", part_json(orders.arrived)},
                    {"look_first", part_json(orders.look_first)}});
}

}  // namespace report
