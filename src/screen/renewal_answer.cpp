#include "screen/renewal_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/joint_heading.h"
#include "words/renewal_orders.h"

namespace screen {
namespace {

using plan::Renewing;

// One line for each joint and reason.
std::string positions_text(const words::RenewalOrder& order, const words::Page& page) {
  std::string text;
  for (const auto& line : words::what_for(order))
    text += words::wrapped(line, page.width, "    ", "      ");
  return text;
}

std::string part_text(std::string_view heading, const std::vector<words::RenewalOrder>& orders,
                      const words::Page& page) {
  if (orders.empty()) return {};
  std::string text = words::strong(heading, page) + '\n';
  for (const auto& order : orders) {
    text += fmt::format("  {} x {}\n", order.positions.size(), words::fastener_text(*order.joint));
    text += positions_text(order, page);
  }
  return text;
}

nlohmann::ordered_json part_json(const std::vector<words::RenewalOrder>& orders) {
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

std::string renewals_text(const std::vector<Renewing>& list, const words::Page& page) {
  if (list.empty()) return "nothing came out that has to be renewed\n";
  const auto orders = words::renewal_orders(list);
  std::string text = part_text("To buy", orders.to_buy, page);
  text += part_text("Arrived", orders.arrived, page);
  text += part_text("Look first: renew where the thread is pulled", orders.look_first, page);
  return text;
}

std::string renewals_json(const std::vector<Renewing>& list) {
  const auto orders = words::renewal_orders(list);
  return json_text({{"to_buy", part_json(orders.to_buy)},
                    {"arrived", part_json(orders.arrived)},
                    {"look_first", part_json(orders.look_first)}});
}

}  // namespace screen
