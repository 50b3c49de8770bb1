#include "screen/renewal_answer.h"

#include <fmt/format.h>

#include <limits>
#include <nlohmann/json.hpp>

#include "screen/cut_list.h"
#include "screen/json_text.h"
#include "words/joint_heading.h"
#include "words/renewal_orders.h"

namespace screen {
namespace {

using plan::Renewing;

constexpr std::size_t kMostOrderLines = 20;

// The orders one part after the other, as far as `most` lines of joint and reason go.
class OrderLines {
 public:
  OrderLines(std::size_t most, const words::Page& page) : most_(most), page_(page) {}

  void tell(std::string_view heading, const std::vector<words::RenewalOrder>& orders) {
    if (orders.empty()) return;
    std::string part;
    for (const auto& order : orders) part += told(order);
    if (!part.empty()) text_ += words::strong(heading, page_) + '\n' + part;
  }

  [[nodiscard]] std::size_t left_out() const { return lines_ > most_ ? lines_ - most_ : 0; }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  // One line for each joint and reason; empty where none of them is told.
  std::string told(const words::RenewalOrder& order) {
    std::string lines;
    for (const auto& line : words::what_for(order)) {
      if (++lines_ <= most_) lines += words::wrapped(line, page_.width, "    ", "      ");
    }
    if (lines.empty()) return {};
    return fmt::format("  {} x {}\n", order.positions.size(), words::fastener_text(*order.joint)) +
           lines;
  }

  std::size_t most_;
  const words::Page& page_;
  std::size_t lines_ = 0;
  std::string text_;
};

std::size_t fasteners_in(const std::vector<words::RenewalOrder>& orders) {
  std::size_t count = 0;
  for (const auto& order : orders) count += order.positions.size();
  return count;
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

std::string renewals_text(const std::vector<Renewing>& list, std::string_view whole,
                          const words::Page& page) {
  if (list.empty()) return "nothing came out that has to be renewed\n";
  const auto orders = words::renewal_orders(list);
  const auto total =
      fmt::format("{} to buy, {} arrived, {} to look at first", fasteners_in(orders.to_buy),
                  fasteners_in(orders.arrived), fasteners_in(orders.look_first));
  OrderLines lines(whole.empty() ? std::numeric_limits<std::size_t>::max() : kMostOrderLines, page);
  lines.tell("To buy", orders.to_buy);
  lines.tell("Arrived", orders.arrived);
  lines.tell("Look first: renew where the thread is pulled", orders.look_first);
  return words::wrapped(words::strong(total, page), page.width, "", "  ") + lines.text() +
         and_more(lines.left_out(), whole, page);
}

std::string renewals_json(const std::vector<Renewing>& list) {
  const auto orders = words::renewal_orders(list);
  return json_text(kNewFastenersFormat, {{"to_buy", part_json(orders.to_buy)},
                                         {"arrived", part_json(orders.arrived)},
                                         {"look_first", part_json(orders.look_first)}});
}

}  // namespace screen
